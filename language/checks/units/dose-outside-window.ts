import { within } from "../../bench/order-rows.ts";
import { shortened } from "../../bench/spoken.ts";
import type { BoundSlot, Spot } from "../../model/slots.ts";
import { Exact } from "../../quantities/exact.ts";
import { numberText } from "../../quantities/number-text.ts";
import { inBase, isRefusal, preferredUnit, type Quantity, showQuantity, toUnit } from "../../quantities/quantity.ts";
import { recipeCheck } from "../check.ts";
import { isTold } from "../consequences.ts";
import { example } from "../example.ts";
import { isRoundedToNothing } from "./dose-rounded-to-nothing.ts";
import { type JudgedDose, judgedDoses, windowText } from "./dose-windows.ts";
import { judgedIons } from "./ion-windows.ts";

export const doseOutsideWindow = recipeCheck({
  name: "dose-outside-window",
  family: "units",
  severity: "error",
  title: "A dose outside the window in which the drug is ever given",
  why: "A slip of the unit or of the decimal point makes a dose that nobody would give.",
  source: "common practice",
  bad: example([
    "dose           from 500 mg up to 10 g for any route",
    "dose           from 500 mcg up to 10 mg for any route",
  ]),
  good: example(),
  *find({ runs, lookup }) {
    for (const run of runs) {
      for (const judged of judgedDoses(run, lookup)) {
        // Nothing is given at all: told at the rounding.
        if (isRoundedToNothing(judged.dose) && isTold("dose-rounded-to-nothing", run)) continue;
        yield* outside(judged.windows, judged.drug.name.name, judged.dose.measure);
      }
      for (const { windows, name, at } of judgedIons(run)) yield* outside(windows, name, at);
    }
  },
  say: ({ drug, given, form, window, factor }) => ({
    text: `${given} of ${drug}${form} lies outside the doses in which it is ever given (${window}).${factor ? ` ${factor}` : ""} Correct the dose, or the window if the source allows more.`,
  }),
});

interface Outside {
  at: { start: number; end: number };
  drug: string;
  given: string;
  /** ` as morphine-hydrochloride`, where the window counts it so. */
  form: string;
  window: string;
  factor: string | undefined;
}

/** Of windows that measure alike (amounts, amounts per kg) one that holds is enough; each kind must hold, and one slip is told once. */
function* outside(windows: JudgedDose["windows"], name: string, at: Spot): Iterable<Outside> {
  const found: Outside[] = [];
  const dimensions = new Set(windows.flatMap(({ value }) => (value ? [value.unit.dimension] : [])));
  for (const dimension of dimensions) {
    const alike = windows.filter(({ value }) => value?.unit.dimension === dimension);
    const { value, shown, window, as } = alike[0]!;
    if (!value || alike.some(({ fits }) => fits !== false)) continue;
    found.push({
      at: { start: at.start, end: at.end },
      drug: name,
      given: givenText(value, shown, window),
      form: as === undefined ? "" : ` as ${as}`,
      window: alike.map((each) => windowText(each.window, each.as)).join(" or "),
      factor: slip(value, window),
    });
  }
  const first = found.find(({ factor }) => factor) ?? found[0];
  if (first) yield first;
}

/** `3 g`; where the window measures otherwise than the dose is given, as the window does: `60 mg/kg (600 mg)`. */
function givenText(value: Quantity, shown: Quantity, window: BoundSlot): string {
  const given = showQuantity(preferredUnit(shown));
  const limit = (window.high ?? window.low)?.measure.quantity;
  const isSame = limit?.unit.dimension === shown.unit.dimension && inBase(value).equals(inBase(shown));
  if (!limit || isSame) return given;
  const measured = toUnit(value, limit.unit);
  return isRefusal(measured)
    ? given
    : `${showQuantity({ ...measured, value: shortened(measured.value.plain()) })} (${given})`;
}

/** A unit mistaken is likelier than three noughts, where both would fit. */
const slips = ["1000", "10", "100", "1000000"] as const;
const bySize = ["10", "100", "1000", "1000000"] as const;
/** A dose that is only a little outside is no slip of the point. */
const littleOutside = Exact.of("1.5");

/** Which slip of the unit or the point would bring it into the window. */
function slip(value: Quantity, window: BoundSlot): string | undefined {
  const most = window.high?.measure.quantity; // unread where it is written in two readings
  const least = window.low?.measure.quantity;
  const tooMuch = most !== undefined && inBase(value).isAbove(inBase(most));
  const far = tooMuch
    ? inBase(value).isAbove(inBase(most).times(littleOutside))
    : least !== undefined && inBase(value).times(littleOutside).isBelow(inBase(least));
  if (!far) return undefined;
  // With one end alone any greater slip fits as well, so the smallest that does is meant.
  for (const text of most && least ? slips : bySize) {
    const factor = Exact.of(text);
    const mended = { value: tooMuch ? value.value.over(factor) : value.value.times(factor), unit: value.unit };
    if (within(mended, window) !== true) continue;
    const cause =
      text === "10" || text === "100" ? "the decimal point or a zero" : "the unit, such as mg for mcg or g for mg";
    return `It would fit if it were ${numberText(factor, "comma")} times ${tooMuch ? "smaller" : "larger"}: look at ${cause}.`;
  }
  return undefined;
}
