import { doseRule } from "../../bench/dose-rules.ts";
import type { OrderedDose } from "../../bench/order-rows.ts";
import type { Run } from "../../bench/run.ts";
import type { Lookup } from "../../model/lookup.ts";
import type { MeasureSlot } from "../../model/slots.ts";
import {
  compareQuantities,
  preferredUnit,
  type Quantity,
  sameDimension,
  showQuantity,
} from "../../quantities/quantity.ts";
import { recipeCheck } from "../check.ts";
import { example } from "../example.ts";
import { isExampleDoseTold } from "../volumes/example-differs.ts";

const bounds = ["maximum", "minimum"] as const;

interface Reached {
  at: MeasureSlot;
  word: (typeof bounds)[number];
  written: string;
  /** The calculated dose that comes nearest to the bound. */
  nearest: Quantity;
}

const dose = "    dose            4 g per bag\n";
const byWeight = (perKg: string) =>
  `    weight          40 kg to 80 kg in steps of 1 kg\n    dose            ${perKg} per bag\n    maximum         dose 4 g\n`;

export const boundAlwaysReached = recipeCheck<Reached>({
  name: "bound-always-reached",
  family: "units",
  severity: "warning",
  across: true,
  title: "A dose by the patient that is cut to the same figure for every patient",
  why: "A dose per kg that is ten times too large is hidden by its cap: everybody gets the most that is ever given.",
  source: "common practice",
  bad: example([dose, byWeight("500 mg/kg")]),
  good: example([dose, byWeight("100 mg/kg")]),
  *find(context) {
    const { recipe, runs, range, lookup } = context;
    const { order } = recipe;
    // Of a part that was not decided nobody can say so.
    if (
      !range ||
      range.undecided.length > 0 ||
      !order ||
      order.all("maximum").length + order.all("minimum").length === 0
    )
      return;
    // An example that expects another dose tells of the same slip.
    if (isExampleDoseTold(context)) return;
    for (const word of bounds) {
      const reached = runs.map((run) => reachedIn(run, word, lookup));
      const [first] = reached;
      if (!first || !reached.every((each) => each?.at.start === first.at.start)) continue;
      const nearest = reached.reduce((a, b) => (isNearer(b!.nearest, a!.nearest, word) ? b : a))!;
      yield nearest;
    }
  },
  say: ({ at, word, written, nearest }) => {
    const isMost = word === "maximum";
    return {
      text: `By ${written} the dose is ${isMost ? "above" : "below"} the \`${word}\` of ${at.written} for every order of the range, ${showQuantity(preferredUnit(nearest), 4)} at the ${isMost ? "least" : "most"}, so everybody gets ${at.written}. Look at both figures; where all are meant to get it, order that dose.`,
    };
  },
});

/** The bound that sets the dose of this order, where the dose was calculated by the patient. */
function reachedIn(run: Run, word: Reached["word"], lookup: Lookup): Reached | undefined {
  const [dose] = run.doses;
  const at = doseRule(word, run.recipe, run.point, dose, lookup);
  if (!dose || !at?.quantity || !isByPatient(dose) || !dose.calculated) return undefined;
  if (!sameDimension(dose.calculated, at.quantity)) return undefined;
  const side = compareQuantities(dose.calculated, at.quantity);
  if (word === "maximum" ? side <= 0 : side >= 0) return undefined;
  return { at, word, written: dose.measure.written, nearest: dose.calculated };
}

/** Per kg, per m2, or by an exposure and the clearance. */
function isByPatient({ measure }: OrderedDose): boolean {
  const parts = measure.quantity?.unit.parts ?? [];
  return parts.some(({ row }) => row.axis === "bodyWeight" || row.axis === "area" || row.axis === "exposure");
}

function isNearer(one: Quantity, other: Quantity, word: Reached["word"]): boolean {
  const side = compareQuantities(one, other);
  return word === "maximum" ? side < 0 : side > 0;
}
