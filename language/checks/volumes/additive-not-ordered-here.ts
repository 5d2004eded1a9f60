import { holds } from "../../bench/order-rows.ts";
import { orderedIons } from "../../bench/stray-drugs.ts";
import type { ConditionSlot } from "../../model/slots.ts";
import { recipeCheck } from "../check.ts";
import { example } from "../example.ts";

interface Unordered {
  at: ConditionSlot;
  drug: string;
  container: string;
}

const dose = "    drug            magnesium-sulfate\n    dose            4 g per bag\n";
const additive = "    additive        magnesium-sulfate 4 g per bag";

export const additiveNotOrderedHere = recipeCheck<Unordered>({
  name: "additive-not-ordered-here",
  family: "volumes",
  severity: "error",
  title: "The steps add a drug for those for whom the order leaves it out",
  why: "The condition beside the additive leaves some patients out; a step without that condition gives it to them all the same.",
  source: "common practice",
  bad: example([dose, `    weight          40 kg to 80 kg in steps of 1 kg\n${additive} when weight above 60 kg\n`]),
  good: example([dose, `    weight          40 kg to 80 kg in steps of 1 kg\n${additive} when weight from 40 kg\n`]),
  *find({ recipe, runs, lookup }) {
    const rows = recipe.order?.all("additive") ?? [];
    if (!rows.some(({ when }) => when)) return;
    const targets = orderedIons(recipe);
    const alone = recipe.order?.one("drug")?.slots.drug.name;
    for (const { slots, when } of rows) {
      const drug = slots.drug.name;
      if (!when || drug === alone) continue;
      // It may be what an ordered amount of an ion is made up from.
      const ions = lookup.find("drug", drug)?.substance.ions ?? [];
      if (ions.some(({ name }) => targets.includes(name))) continue;
      for (const run of runs) {
        if (run.unknown || run.doses.some((d) => d.drug === drug) || holds(when, run.point, []) !== false) continue;
        const vessel = run.finals.find(({ liquid }) => liquid.amounts.get(drug)?.isPositive());
        if (!vessel) continue;
        yield { at: when, drug, container: vessel.name };
        break;
      }
    }
  },
  say: ({ drug, container }) => ({
    text: `The condition leaves ${drug} out here, and the steps bring it into ${container} all the same. Put those steps under \`only when\` with the same condition, or mend the condition.`,
  }),
});
