/** A calculated dose as it is given: banded, rounded, then held to the order's maximum and minimum, each with its line of working. */
import type { Recipe } from "../model/declaration.ts";
import type { Lookup } from "../model/lookup.ts";
import type { MeasureSlot, NameSlot } from "../model/slots.ts";
import { Exact } from "../quantities/exact.ts";
import { compareQuantities, inBase, type Quantity, showQuantity } from "../quantities/quantity.ts";
import { type DoseRule, doseRule } from "./dose-rules.ts";
import { type OrderedDose, type OrderPoint, rowAt } from "./order-rows.ts";
import { line } from "./working-line.ts";

/** The dose with what is given of it; why it is not known where a line that rounds or bounds it cannot be read. */
export function settle(
  dose: OrderedDose,
  recipe: Recipe,
  lookup: Pick<Lookup, "find">,
  bands: NameSlot | undefined,
  patient: { point: OrderPoint; doses: readonly OrderedDose[] },
): OrderedDose {
  const order = recipe.order!;
  let given = dose.given;
  let rounding: OrderedDose["rounding"];
  const working = [...dose.working];
  if (given && bands) {
    if (!lookup.find("bands", bands.name)) {
      return { ...dose, given: undefined, missing: `the table ${bands.name}`, toldInOrder: true };
    }
    const band = bandFor(given, bands.name, lookup);
    if (!band) return { ...dose, given: undefined, missing: `a band of ${bands.name} for ${showQuantity(given)}` };
    working.push(line("limited", `band ${bands.name}: ${showQuantity(given)} gives ${showQuantity(band)}`, band));
    given = band;
  }
  const rule = (word: DoseRule) => doseRule(word, recipe, patient.point, dose, lookup);
  const round = rowAt(order.all("round"), patient)?.slots;
  const stepped = rule("round");
  if (given && round && stepped?.quantity && sameKind(given, stepped.quantity)) {
    const step = inBase(stepped.quantity);
    const exact = inBase(given);
    const rounded =
      round.way.choice === "to nearest"
        ? exact.toNearest(step)
        : round.way.choice === "upward to"
          ? exact.upTo(step)
          : exact.downTo(step);
    const after = inUnit(rounded, given);
    working.push(
      line("rounded", `rounded ${roundingWords[round.way.choice]} ${stepped.written}: ${showQuantity(after)}`, after),
    );
    rounding = { from: given, to: after };
    given = after;
  }
  const unread = unreadBound(order, rule);
  if (given && unread)
    return { ...dose, given: undefined, missing: `the \`${unread}\` of the order`, toldInOrder: true };
  const [maximum, minimum] = [rule("maximum"), rule("minimum")];
  if (given && maximum && isBeyond(given, maximum, "above")) {
    given = inUnit(inBase(maximum.quantity!), given);
    working.push(line("limited", `capped at ${boundWords(maximum, given)}`, given));
  }
  if (given && minimum && isBeyond(given, minimum, "below")) {
    given = inUnit(inBase(minimum.quantity!), given);
    working.push(line("limited", `raised to ${boundWords(minimum, given)}`, given));
  }
  return { ...dose, given, working, ...(rounding && { rounding }) };
}

/** A line that rounds or bounds the dose and cannot be read: what is given is then not known. */
function unreadBound(
  order: NonNullable<Recipe["order"]>,
  rule: (word: DoseRule) => MeasureSlot | undefined,
): DoseRule | undefined {
  return (["round", "maximum", "minimum"] as const).find((word) => {
    const stated = rule(word);
    return order.isUnread(word) || (stated && !stated.quantity);
  });
}

function isBeyond(given: Quantity, { quantity }: MeasureSlot, side: "above" | "below"): boolean {
  if (!quantity || !sameKind(given, quantity)) return false;
  return side === "above" ? inBase(given).isAbove(inBase(quantity)) : inBase(given).isBelow(inBase(quantity));
}

/** `2 g`; where it names another form than the dose, with what that is of it: `2 g as morphine-base = 2.66 g`. */
function boundWords({ written, quantity }: MeasureSlot, given: Quantity): string {
  return / as /.test(written) ? `${written} = ${showQuantity(given)}` : showQuantity(quantity!);
}

/** How each way of rounding is said, half way cases included. */
const roundingWords = {
  "to nearest": "half up to the nearest",
  "upward to": "up to the next",
  "downward to": "down to the next lower",
} as const;

function sameKind(a: Quantity, b: Quantity): boolean {
  return a.unit.dimension === b.unit.dimension;
}

function inUnit(base: Exact, like: Quantity): Quantity {
  return { value: base.over(inBase({ value: Exact.one, unit: like.unit })), unit: like.unit };
}

function bandFor(dose: Quantity, name: string, lookup: Pick<Lookup, "find">): Quantity | undefined {
  for (const { slots } of lookup.find("bands", name)?.facts.all("from") ?? []) {
    const { low, high, given } = slots;
    if (!low.quantity || !high.quantity || !given.quantity) continue;
    if (!sameKind(dose, low.quantity) || !sameKind(dose, high.quantity)) continue;
    if (compareQuantities(dose, low.quantity) >= 0 && compareQuantities(dose, high.quantity) < 0) return given.quantity;
  }
  return undefined;
}
