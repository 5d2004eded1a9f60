import { happened } from "../../bench/run.ts";
import { thingName } from "../../bench/things.ts";
import { recipeCheck } from "../check.ts";
import { stepBefore } from "../edits.ts";
import { standardAnd } from "../example.ts";
import { mayHaveDone } from "../unread-steps.ts";

const drawnUp = (check: string) =>
  standardAnd(`
stock saline-ampoule-10 {
  fluid        sodium-chloride-0.9
  container    vial
  fill         10 mL
  doses        single
  storage      room-temperature
}

lots saline-ampoule-10 {
  lot "KQ-6610"  expires 2027-08
}

drug midazolam {
  source         guide "midazolam"
  name           "midazolam"
  hazard         not-hazardous
  high-alert     yes
  light          not-sensitive
  compatible     sodium-chloride-0.9
  dose           from 1 mg up to 100 mg for any route
  concentration  up to 5 mg/mL for any route
  stable {
    source         guide "table 8"
    in             sodium-chloride-0.9
    at             room-temperature
    concentration  any
    made-of        any
    light          any
    counted-from   mixing
    for            24 h
  }
}

stock midazolam-vial {
  drug       midazolam
  container  vial
  strength   5 mg/mL
  fill       10 mL
  doses      single
  storage    room-temperature
}

lots midazolam-vial {
  lot "KQ-6611"  expires 2027-08
}

recipe midazolam-syringe {
  title  "Midazolam 20 mg in sodium chloride 0.9 %, syringe of 8 mL"

  order {
    drug          midazolam
    dose          20 mg per load
    diluent       sodium-chloride-0.9
    final-volume  8 mL
    method        build-from-empty
    route         intravenous
    access        peripheral
    use           titrated
  }

  materials {
    mid     midazolam-vial
    saline  saline-ampoule-10
    load    syringe-10mL
    needle  needle-21-gauge
  }

  steps {
    check label and expiry of mid, saline
    disinfect mid, saline
    attach needle to load
    draw 20 mg from mid into load at equal pressure  = 4 mL
    expel air from load
${check}    make up load to 8 mL with saline
    expel air from load
    mix load by inverting 10 times
    remove needle from load
    inspect load
    seal load
    label load
    keep mid, saline, needle for check
    check by pharmacist
  }

  preparation load {
    form           solution-for-injection
    concentration  2.5 mg/mL
    use-within     24 h at room-temperature
    appearance     "clear, colourless, free of particles"
  }
}
`);

export const highAlertHiddenUnchecked = recipeCheck({
  name: "high-alert-hidden-unchecked",
  family: "technique",
  severity: "warning",
  title: "Diluent drawn on top of a high-alert drug before a second person has looked",
  why: "Once diluted, nobody can see how much of the drug is in the syringe.",
  source: "from memory: check drug, diluent and drawn volume before the addition",
  rows: ["technique-rules check-before-add"],
  bad: drawnUp(""),
  good: drawnUp("    check by pharmacist\n"),
  happening: "high-alert-hidden-unchecked",
  find: ({ run }) =>
    happened(run, "high-alert-hidden-unchecked")
      .filter((h) => !mayHaveDone(["check"], run, h.step))
      .map((h) => ({ at: h.spot, step: h.step, ...h.data })),
  say: ({ step, drug, syringe, drawn }) => ({
    text: `Step ${step.number} draws on top of ${drug}, a high-alert drug, in ${thingName(syringe)}, and nobody has checked the volume that step ${drawn.number} drew. Put \`check by pharmacist\` before.`,
    related: [{ at: drawn.step, text: "drawn here" }],
  }),
  fixes: ({ step }, { chunk }) => [
    { title: "Put a check before", edits: [stepBefore(chunk.text, step.step, "check by pharmacist")] },
  ],
});
