import { thingOrEach } from "../../bench/things.ts";
import { vesselKey } from "../../bench/vessels.ts";
import { agrees } from "../agreement.ts";
import { recipeCheck } from "../check.ts";
import { standardAnd } from "../example.ts";
import { factorBetween } from "../factor-between.ts";
import { ml } from "../showing.ts";
import { broughtOf, orderedFluids } from "./diluents.ts";

const halves = (second: string) =>
  standardAnd(`
fluid glucose-5 {
  source      guide "fluids"
  name        "glucose 5 % w/v"
  contains    glucose 50 g/L
  osmolarity  278 mOsm/L
  use         injection
}

drug halvol {
  source         guide "halvol"
  invented       yes
  name           "halvol"
  formula        "MgSO4"
  high-alert     no
  hazard         not-hazardous
  light          not-sensitive
  compatible     sodium-chloride-0.9
  compatible     glucose-5
  dose           from 100 mg up to 2 g for route intravenous
  concentration  up to 10 mg/mL for route intravenous
  rate           up to 1 g/h for route intravenous
  stable {
    source         guide "halvol"
    in             any
    at             room-temperature
    concentration  any
    made-of        any
    light          any
    counted-from   mixing
    for            24 h
  }
}

stock halvol-vial {
  drug       halvol
  container  vial
  strength   100 mg/mL
  fill       10 mL
  doses      single
  storage    room-temperature
}

stock glucose-bag-100 {
  fluid      glucose-5
  container  bag
  fill       100 mL
  capacity   150 mL
  made-of    polyolefin
  doses      single
  storage    room-temperature
}

stock empty-bag-150 {
  container  empty-bag
  capacity   150 mL
  made-of    polyolefin
  doses      single
  storage    room-temperature
}

lots halvol-vial {
  lot "KQ-7301"  expires 2027-06
}

lots glucose-bag-100 {
  lot "KQ-7302"  expires 2027-06
}

lots empty-bag-150 {
  lot "KQ-7303"  expires 2027-06
}

recipe halvol-500mg {
  title  "Halvol 500 mg in glucose 5 % and sodium chloride 0.9 %"

  order {
    drug      halvol
    dose      500 mg per sack
    diluent   glucose-5 50 mL
    diluent   sodium-chloride-0.9 50 mL
    method    build-from-empty
    route     intravenous
    access    peripheral
    infuse-over 60 min
  }

  materials {
    vial     halvol-vial
    glucose  glucose-bag-100
    saline   saline-bag-100
    sack     empty-bag-150
    tube     transfer-tubing
    tube-2   transfer-tubing
    syringe  syringe-5mL
    needle   needle-18-gauge
  }

  steps {
    check label and expiry of vial, glucose, saline, sack
    disinfect glucose, sack
    transfer 50 mL from glucose to sack using tube
    disinfect saline, sack
    mix sack by inverting 10 times
    transfer ${second} from saline to sack using tube-2
    mix sack by inverting 10 times
    disinfect vial
    attach needle to syringe
    draw 500 mg from vial into syringe at equal pressure  = 5 mL
    expel air from syringe
    disinfect sack
    inject syringe into sack
    mix sack by inverting 10 times
    inspect sack
    seal sack
    label sack
    keep vial, syringe for check
    check by pharmacist
  }

  preparation sack {
    form        solution-for-infusion
    use-within  24 h at room-temperature
    appearance  "clear, colourless, free of particles"
  }
}
`);

export const diluentNotDelivered = recipeCheck({
  name: "diluent-not-delivered",
  family: "volumes",
  severity: "error",
  title: "Less or more of an ordered diluent than the order says",
  why: "In a mixture of two fluids the share of each sets what salt and what sugar the patient gets.",
  source: "common practice",
  bad: halves("40 mL"),
  good: halves("50 mL"),
  *find({ runs }) {
    for (const run of runs) {
      if (run.unknown || run.overfill !== "label") continue;
      for (const { fluid, wanted, at } of orderedFluids(run)) {
        for (const vessel of run.finals) {
          const found = broughtOf(fluid, vessel, run);
          if (wanted ? agrees(found, wanted) : found.isPositive()) continue;
          // The bag's labelled volume may be meant, of which the method takes some out first.
          const withdrawn = run.withdrawn.get(vesselKey(vessel));
          if (wanted && withdrawn && agrees(found.plus(withdrawn), wanted)) continue;
          const where = thingOrEach(vessel, run.finals, (other) => broughtOf(fluid, other, run).equals(found));
          yield { at, fluid, wanted, found, where };
        }
      }
    }
  },
  say: ({ fluid, wanted, found, where }) => ({
    text: `The order wants ${wanted ? `${ml(wanted)} of ${fluid}` : `${fluid} among its diluents`}; ${found.isPositive() ? `${ml(found)} end in ${where}${wanted ? factorBetween(wanted, found) : ""}` : `none of it ends in ${where}`}. Mend the steps or the order.`,
  }),
});
