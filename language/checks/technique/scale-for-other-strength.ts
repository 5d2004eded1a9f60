import { isRefusal, strengthOf } from "../../bench/amounts.ts";
import { recipeCheck } from "../check.ts";
import { powderLibrary } from "../example.ts";
import { strength } from "../showing.ts";

/** Insulin in a syringe whose scale counts units; `marked` is the strength that the scale is for. Invented figures. */
const insulin = (marked: string) =>
  `${powderLibrary.replace(/\nrecipe [\s\S]*?\n}\n/g, "")}
device syringe-scaled-1mL {
  kind        syringe
  capacity    1 mL
  graduation  0.01 mL
  scale-of    ${marked}
}

drug insulin-soluble {
  source         guide "insulin"
  name           "insulin, soluble"
  hazard         not-hazardous
  high-alert     no
  light          not-sensitive
  compatible     sodium-chloride-0.9
  dose           from 1 unit up to 100 units for any route
  concentration  up to 1 unit/mL for route intravenous
  rate           up to 20 units/h for route intravenous
  stable {
    source         guide "table 11"
    in             sodium-chloride-0.9
    at             room-temperature
    concentration  any
    made-of        any
    light          any
    counted-from   mixing
    for            24 h
  }
}

stock insulin-vial {
  drug       insulin-soluble
  container  vial
  strength   100 units/mL
  osmolarity  300 mOsm/L  source guide "insulin"
  fill       10 mL
  doses      single
  storage    refrigerator
}

lots insulin-vial {
  lot "KQ-8101"  expires 2027-06
}

recipe insulin-50-units {
  title  "Insulin 50 units in sodium chloride 0.9 % 100 mL"

  order {
    drug            insulin-soluble
    dose            50 units per bag
    diluent         sodium-chloride-0.9
    diluent-volume  100 mL
    method          add-to-bag
    route           intravenous
    access          peripheral
    infuse-over     10 h
  }

  materials {
    ins          insulin-vial
    bag          saline-bag-100
    small        syringe-scaled-1mL
    thin         needle-21-gauge
  }

  steps {
    check label and expiry of ins, bag
    attach thin to small
    disinfect ins
    draw 50 units from ins into small dead-space excluded  = 0.5 mL
    expel air from small
    disinfect bag
    inject small into bag
    mix bag by inverting 10 times
    inspect bag
    seal bag
    label bag
    keep ins, thin, small for check
    check by pharmacist
  }

  preparation bag {
    form           solution-for-infusion
    concentration  0.498 units/mL
    use-within     24 h at room-temperature
    appearance     "clear, colourless, free of particles"
  }
}
`;

export const scaleForOtherStrength = recipeCheck({
  name: "scale-for-other-strength",
  family: "technique",
  severity: "error",
  title: "A syringe marked in units of one strength draws another",
  why: "Its scale is read in units, so that the dose read is wrong by the ratio of the two strengths.",
  source: "common practice: a syringe marked in units serves only the strength that it is marked for",
  bad: insulin("500 units/mL"),
  good: insulin("100 units/mL"),
  *find({ runs }) {
    for (const run of runs) {
      for (const step of run.steps) {
        for (const { how, to, liquid, spot } of step.movements) {
          const scale = how === "draw" ? to?.device?.facts.one("scale-of")?.slots.units : undefined;
          if (!to || !scale?.quantity || !liquid.volume.isPositive()) continue;
          for (const drug of liquid.drugs) {
            const kind = run.setup.kinds.get(drug);
            const held = liquid.amounts.get(drug);
            const substance = run.setup.drugs.get(drug)?.substance;
            if (!kind || !held || !substance) continue;
            const marked = strengthOf(scale.quantity, kind, substance);
            if (!isRefusal(marked) && held.over(liquid.volume).equals(marked)) continue;
            yield { at: spot, step, to, drug, scale: scale.written, held, volume: liquid.volume, kind };
          }
        }
      }
    }
  },
  say: ({ step, to, drug, scale, held, volume, kind }) => ({
    text: `Step ${step.number} draws ${drug} of ${strength(held, volume, kind)} into ${to.name}, whose scale is marked for ${scale}. Use a syringe marked in mL, or one marked for this strength.`,
  }),
});
