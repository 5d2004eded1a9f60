/** Why an amount cannot be turned into another, as a value. */
import type { Unit } from "./unit.ts";

export type RefusalRule =
  | "mass-is-not-activity"
  | "equivalents-need-an-ion"
  | "percent-needs-kind"
  | "different-dimension"
  | "different-activity"
  | "elapsed-is-not-calendar"
  | "body-weight-is-not-mass"
  | "particles-need-a-substance"
  | "needs-density"
  | "needs-formula"
  | "form-not-declared"
  | "form-of-no-mass";

export interface Refusal {
  refused: true;
  /** A plain sentence for a pharmacist: why, with the units, then what is missing. */
  reason: string;
  rule: RefusalRule;
}

export function isRefusal(value: object): value is Refusal {
  return "refused" in value;
}

export function refuse(rule: RefusalRule, reason: string): Refusal {
  return { refused: true, rule, reason };
}

function named(unit: Unit): string {
  return unit.spelling === "" ? "a number without a unit" : unit.spelling;
}

/** Why `from` is not turned into `to` without knowing the substance. */
export function refusalBetween(from: Unit, to: Unit): Refusal {
  const kinds = [axisAbove(from), axisAbove(to)];
  const both = `${named(from)} cannot be turned into ${named(to)}`;
  const has = (kind: string) => kinds.includes(kind);
  if (has("percent"))
    return refuse(
      "percent-needs-kind",
      `${both}: a bare percent does not say what it is a share of. Write % w/v, % v/v or % w/w.`,
    );
  const different = refuse(
    "different-dimension",
    `${both}: one is ${from.dimension.name}, the other ${to.dimension.name}.`,
  );
  const isShare = has("volume/volume") || has("mass/mass");
  if (!isShare && below(from) !== below(to)) return different;
  if (has("activity") && kinds[0] !== kinds[1]) {
    return refuse(
      "mass-is-not-activity",
      `${both}: a unit of activity is set by its own test, not by weight or amount. Use the strength on the label.`,
    );
  }
  if (has("equivalents") && kinds[0] !== kinds[1]) {
    return refuse(
      "equivalents-need-an-ion",
      `${both}: mEq counts the charges of one ion. Name the ion and its charge.`,
    );
  }
  if (has("osmoles") && kinds[0] !== kinds[1]) {
    return refuse("particles-need-a-substance", `${both}: mOsm counts particles. Name the substance and its ions.`);
  }
  if (isShare || (has("mass") && has("volume"))) {
    return refuse("needs-density", `${both}: the density is needed. Give the density in g/mL.`);
  }
  if (has("mass") && has("moles"))
    return refuse("needs-formula", `${both}: the molar mass is needed. Give the formula of the drug.`);
  if (has("time") && (has("calendarDays") || has("calendarMonths"))) {
    return refuse(
      "elapsed-is-not-calendar",
      `${both}: 24 h is elapsed time, 1 day ends with a date. Write the one that is meant.`,
    );
  }
  if (has("bodyWeight") && has("mass"))
    return refuse(
      "body-weight-is-not-mass",
      `${both}: one is the weight of the patient, the other an amount of a substance.`,
    );
  return different;
}

/** Why two units of activity are not exchanged, though both count activity. */
export function activityRefusal(from: Unit, to: Unit): Refusal {
  return refuse(
    "different-activity",
    `${named(from)} are not exchanged for ${named(to)}: each is counted against its own standard. Use the unit on the label of the product.`,
  );
}

/** `/volume` of a concentration; the same in both where only what stands above the line differs. */
function below(unit: Unit): string {
  const { key } = unit.dimension;
  return key.includes("/") ? key.slice(key.indexOf("/")) : "";
}

function axisAbove(unit: Unit): string {
  const { key } = unit.dimension;
  if (key === "volume/volume" || key === "mass/mass") return key;
  return key.split("/")[0] ?? "";
}
