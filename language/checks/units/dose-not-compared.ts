import { amountOf, isRefusal } from "../../bench/amounts.ts";
import type { Spot } from "../../model/slots.ts";
import { showQuantity } from "../../quantities/quantity.ts";
import { recipeCheck } from "../check.ts";
import { example } from "../example.ts";
import { isNotKnown } from "../unread-facts.ts";
import { judgedDoses, windowText } from "./dose-windows.ts";
import { type JudgedIon, judgedIons } from "./ion-windows.ts";
import { isFormTold } from "./salt-forms.ts";

interface NotCompared {
  at: Spot;
  given: string;
  drug: string;
  window: string;
  /** The container of which nobody knows how much of an ion it gives. */
  vessel?: string;
  /** It is known how much of it is in there, and not how much of the container is given. */
  isPartUnknown?: boolean;
}

export const doseNotCompared = recipeCheck<NotCompared>({
  name: "dose-not-compared",
  family: "units",
  severity: "warning",
  title: "A dose that cannot be compared with the drug's dose window",
  why: "A window that measures something else lets every slip of the unit through.",
  source: "common practice",
  bad: example(["dose           from 500 mg up to 10 g", "dose           from 10 mg/kg up to 100 mg/kg"]),
  good: example(),
  *find(context) {
    const { runs, lookup } = context;
    for (const run of runs) {
      for (const { dose, given, drug, windows } of judgedDoses(run, lookup)) {
        // A dose that does not fit the drug at all has an error of its own.
        const kind = run.setup.kinds.get(dose.drug);
        if (kind && isRefusal(amountOf(given, kind, drug.substance, dose.as, dose.ion))) continue;
        if (isNotKnown(drug.facts, "dose") || windows.some(({ as }) => isFormTold(drug, as, context))) continue;
        // `any` is a decision, not a figure to compare with.
        if (windows.some(({ window, fits }) => fits !== undefined || (!window.low && !window.high))) continue;
        yield {
          at: { start: dose.measure.start, end: dose.measure.end },
          given: showQuantity(given),
          drug: drug.name.name,
          window: windows.map((each) => windowText(each.window, each.as)).join(" or "),
        };
      }
      const ions = judgedIons(run);
      const isCompared = ({ vessel, ion }: JudgedIon) =>
        ions.some((o) => o.vessel === vessel && o.ion === ion && o.windows.some(({ fits }) => fits !== undefined));
      for (const judged of ions) {
        const { at, drug, name, vessel, windows, given, isHeldKnown } = judged;
        if (isNotKnown(drug.facts, "dose") || isCompared(judged)) continue;
        const window = windows.map((each) => windowText(each.window, each.as)).join(" or ");
        yield given
          ? { at, given: showQuantity(given), drug: name, window }
          : { at, given: "", drug: name, window, vessel: vessel.name, isPartUnknown: isHeldKnown };
      }
    }
  },
  say: ({ given, drug, window, vessel, isPartUnknown }) => ({
    text: isPartUnknown
      ? `How much ${drug} is given of ${vessel} was not compared with its dose window (${window}): only a part of ${vessel} is given, and the doses of the order do not say one part of it. Order of each drug what that part holds, or make a container that is given as a whole.`
      : vessel
        ? `How much ${drug} ${vessel} gives was not compared with its dose window (${window}), because it is not known. State \`contains ${drug}\` in the stock, or \`ion ${drug}\` in the drug, or correct the name.`
        : `${given} of ${drug} was not compared with its dose window (${window}): the two measure different things. State a window in the unit of the dose, or the weight or body surface in the order.`,
  }),
});
