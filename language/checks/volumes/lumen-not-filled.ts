import { thingOrEach } from "../../bench/things.ts";
import { inBase } from "../../quantities/quantity.ts";
import { recipeCheck } from "../check.ts";
import { standardAnd } from "../example.ts";
import { ml } from "../showing.ts";

const lock = (lumen: string) =>
  standardAnd(`
stock saline-vial-20 {
  fluid      sodium-chloride-0.9
  container  vial
  fill       20 mL
  doses      single
  storage    room-temperature
}

lots saline-vial-20 {
  lot "KQ-7103"  expires 2027-08
}

drug locksol {
  source         guide "locks"
  invented       yes
  name           "locksol"
  high-alert     no
  hazard         not-hazardous
  light          not-sensitive
  compatible     sodium-chloride-0.9
  dose           up to 100 mg for route lock
  concentration  up to 20 mg/mL for route lock
  stable {
    source         guide "locks"
    in             sodium-chloride-0.9
    at             room-temperature
    concentration  any
    made-of        any
    light          any
    counted-from   mixing
    for            24 h
  }
}

stock locksol-vial {
  drug       locksol
  container  vial
  strength   20 mg/mL
  fill       5 mL
  doses      single
  storage    room-temperature
}

lots locksol-vial {
  lot "KQ-7104"  expires 2027-08
}

recipe locksol-lock {
  title  "Locksol 10 mg/mL, syringe of 3 mL"

  order {
    drug            locksol
    lumen           ${lumen}
    concentration   10 mg/mL
    final-volume    3 mL
    diluent         sodium-chloride-0.9
    method          build-from-empty
    route           lock
    use             titrated
  }

  materials {
    vial         locksol-vial
    saline       saline-vial-20
    syringe      syringe-3mL
    needle       needle-21-gauge
  }

  steps {
    check label and expiry of vial, saline
    disinfect vial, saline
    attach needle to syringe
    draw 30 mg from vial into syringe  = 1.5 mL
    expel air from syringe
    make up syringe to 3 mL with saline  giving 10 mg/mL
    expel air from syringe
    mix syringe by inverting 10 times
    remove needle from syringe
    inspect syringe
    seal syringe
    label syringe
    keep vial, saline, needle for check
    check by pharmacist
  }

  preparation syringe {
    form           solution-for-injection
    concentration  10 mg/mL
    use-within     24 h at room-temperature
    appearance     "clear, colourless, free of particles"
  }
}
`);

export const lumenNotFilled = recipeCheck({
  name: "lumen-not-filled",
  family: "volumes",
  severity: "error",
  title: "A container that holds less than the lumen it is to fill",
  why: "Blood stands in the part of the catheter that the lock does not reach: it clots there, and germs grow.",
  source: "common practice",
  bad: lock("1.5 mL to 3.5 mL in steps of 0.1 mL"),
  good: lock("1.5 mL to 2.5 mL in steps of 0.1 mL"),
  *find({ run, recipe }) {
    const lumen = run.point.get("lumen");
    const stated = recipe.order?.one("lumen");
    if (run.unknown || !stated || lumen?.unit.dimension.key !== "volume") return;
    const wanted = inBase(lumen);
    const seen = new Set<string>();
    for (const vessel of run.finals) {
      const { volume } = vessel.liquid;
      if (seen.has(vessel.name) || !volume.isPositive() || !wanted.isAbove(volume)) continue;
      seen.add(vessel.name);
      const where = thingOrEach(vessel, run.finals, (other) => other.liquid.volume.equals(volume));
      yield { at: stated, where, volume, wanted };
    }
  },
  say: ({ where, volume, wanted }) => ({
    text: `${where} holds ${ml(volume)}, and the lumen takes ${ml(wanted)}. Fill more, or order for smaller lumens only.`,
  }),
});
