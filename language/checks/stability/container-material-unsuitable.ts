import { rowAt } from "../../bench/order-rows.ts";
import { orderedGiving, volumeGiven } from "../../bench/rates.ts";
import type { Run } from "../../bench/run.ts";
import { isLongerTime } from "../../bench/stable-rows.ts";
import type { Vessel } from "../../bench/things.ts";
import type { Recipe } from "../../model/declaration.ts";
import type { MeasureSlot } from "../../model/slots.ts";
import { isSameMaterial } from "../../model/usual-words.ts";
import { type Quantity, showQuantity } from "../../quantities/quantity.ts";
import { findUnit } from "../../quantities/unit.ts";
import { recipeCheck } from "../check.ts";
import { example } from "../example.ts";
import { finished } from "./stable-rows.ts";

const hour = findUnit("h").unit!;
const dose = "  dose           from 500 mg up to 10 g for any route\n";

export const containerMaterialUnsuitable = recipeCheck({
  name: "container-material-unsuitable",
  family: "stability",
  severity: "error",
  title: "A finished container that does not suit the drug",
  why: "The wall takes up drug or gives off plasticiser, so that the patient gets less of one and more of the other.",
  source:
    "Paclitaxel investigational drug sheet (US National Cancer Institute, 1994, solution preparation); Amiodarone preparation for intravenous infusion (secondary page quoting the FDA label, undated)",
  rows: [
    "technique-rules protein-or-oil-compatibility",
    "technique-rules vacuum-bottle-buffer",
    "stability-examples amiodarone",
  ],
  bad: example([dose, `${dose}  container-material  polyolefin unsuitable for giving over 2 h\n`]),
  good: example([dose, `${dose}  container-material  polyolefin unsuitable for giving over 6 h\n`]),
  *find({ recipe, runs }) {
    for (const run of runs) {
      for (const { vessel, drugs } of finished(run)) {
        const made = vessel.stock?.facts.one("made-of")?.slots.material.name;
        for (const drug of drugs) {
          for (const fact of drug.facts.all("container-material")) {
            const { material, verdict, over } = fact.slots;
            if (verdict.choice !== "unsuitable" || made === undefined || !isSameMaterial(material.name, made)) continue;
            const given = timeGiven(recipe, run, vessel);
            // Where the order does not say for how long, nobody can say that it is short enough.
            if (over && given && isLongerTime(given.time, over.quantity) === false) continue;
            yield { at: vessel.material.item, vessel, drug, fact, what: `made of ${made}`, over, given };
          }
          for (const fact of drug.facts.all("container-kind")) {
            if (fact.slots.kind.choice !== vessel.kind) continue;
            yield {
              at: vessel.material.item,
              vessel,
              drug,
              fact,
              what: `a${/^[aeiou]/.test(vessel.kind) ? "n" : ""} ${vessel.kind}`,
              over: undefined,
              given: undefined,
            };
          }
        }
      }
    }
  },
  say: ({ vessel, drug, fact, what, over, given }, { recipe }) => ({
    text: `${vessel.name} is ${what}, which does not suit ${drug.name.name}${overText(over, given, recipe)}. Use a container that does.`,
    related: [{ at: { start: fact.start, end: fact.end, chunk: drug.chunk }, text: "said here" }],
  }),
});

interface TimeGiven {
  time: Quantity | undefined;
  /** `the order says 4 h`, `at 27 mL/h it runs in 4 h`. */
  said: string;
}

/** As the order says, or as its rate comes to; of a rate that is changed at the bedside nobody knows it. */
function timeGiven(recipe: Recipe, run: Run, vessel: Vessel): TimeGiven | undefined {
  const { order } = recipe;
  const over = rowAt(order?.all("infuse-over"), run)?.slots.time;
  if (over) return { time: over.quantity, said: `the order says ${over.written}` };
  const at = rowAt(order?.all("infuse-at"), run)?.slots.rate;
  if (!at || order?.one("use")?.slots.use.choice === "titrated") return undefined;
  const giving = volumeGiven(run, vessel) && orderedGiving(run, vessel);
  if (!giving) return undefined;
  const time = { value: giving.volume.over(giving.rate.value), unit: hour };
  return { time, said: `at ${at.written} it runs in ${showQuantity(time, 3)}` };
}

function overText(over: MeasureSlot | undefined, given: TimeGiven | undefined, recipe: Recipe): string {
  if (!over) return "";
  if (given) return ` when given over more than ${over.written}; ${given.said}`;
  return ` when given over more than ${over.written}, and the order${recipe.order ? " does not say over what time" : " is missing"}`;
}
