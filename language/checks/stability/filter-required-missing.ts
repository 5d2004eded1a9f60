import { happened } from "../../bench/run.ts";
import { thingName } from "../../bench/things.ts";
import type { Exact } from "../../quantities/exact.ts";
import { inBase } from "../../quantities/quantity.ts";
import { findUnit } from "../../quantities/unit.ts";
import { recipeCheck } from "../check.ts";
import { example } from "../example.ts";
import { finished } from "./stable-rows.ts";

const dose = "  dose           from 500 mg up to 10 g for any route\n";
const micrometre = findUnit("micrometre").unit!;

export const filterRequiredMissing = recipeCheck({
  name: "filter-required-missing",
  family: "stability",
  severity: "error",
  title: "A drug that has to be filtered is not, or too coarsely",
  why: "What the filter should hold back reaches the patient.",
  source: "common practice",
  bad: example([dose, `${dose}  filter         required up to 1.2 micrometre\n`]),
  good: example([dose, `${dose}  filter         required up to 5 micrometre\n`]),
  *find({ recipe, runs }) {
    for (const run of runs) {
      if (run.plan.broken) continue;
      for (const { vessel, drugs } of finished(run)) {
        for (const drug of drugs) {
          for (const fact of drug.facts.all("filter")) {
            // What it passed may have been the filter; the name of the part is told.
            if (!fact.slots.required || run.passedUnknown.has(drug.name.name)) continue;
            const most = fact.slots.pore;
            const passed = vessel.liquid.pores.get(drug.name.name);
            const limit = most?.quantity ? inBase(most.quantity).over(micrometre.factor) : undefined;
            if (passed && (!most || (limit && passed.isAtMost(limit)))) continue;
            const preparation = recipe.preparations.find((p) => p.name.name === vessel.name);
            const inPart = !passed && happened(run, "passed-filter").some(({ data }) => data.drug === drug.name.name);
            yield { at: preparation?.name ?? vessel.material.name, drug, fact, most, passed, inPart, vessel };
          }
        }
      }
    }
  },
  say: ({ drug, fact, most, passed, inPart, vessel }) => {
    const needed = most ? `a filter of ${most.written} or finer` : "a filter";
    const met = passed
      ? `the finest that all of it passes has ${poreText(passed)}`
      : inPart
        ? `not all of what ${thingName(vessel)} holds passes one with a known pore`
        : "it passes none with a known pore";
    return {
      text: `${drug.name.name} has to pass ${needed} while it is made; ${met}. Add the filter and the step that uses it.`,
      related: [{ at: { start: fact.start, end: fact.end, chunk: drug.chunk }, text: "said here" }],
    };
  },
});

function poreText(pore: Exact): string {
  return `${pore.toText()} micrometre`;
}
