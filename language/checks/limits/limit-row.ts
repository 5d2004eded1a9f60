/** One row of a declared limit, and how it is said. */
import type { BoundSlot, ConditionSlot, Spot } from "../../model/slots.ts";
import { Exact } from "../../quantities/exact.ts";
import { inBase } from "../../quantities/quantity.ts";

export interface LimitRow extends Spot {
  when: ConditionSlot | undefined;
  slots: {
    limits: BoundSlot;
    /** Of one of its ions, over all that brings it to the container; of the drug where absent. */
    ion?: { name: string };
    /** The form of the drug that the limits count, where the row says one. */
    salt?: { name: string };
    route?: { name: string };
    access?: { choice: string };
    use?: { choice: string };
  };
}

/** From the lowest up: `up to 2 mg/mL or from 5 mg/mL up to 6 mg/mL`; `up to 10 mg/mL as morphine-hydrochloride`. */
export function limitsText(rows: readonly LimitRow[]): string {
  const fromBelow = [...rows].sort((a, b) => lowOf(a).compare(lowOf(b)));
  return fromBelow.map((row) => `${boundText(row.slots.limits)}${formText(row)}`).join(" or ");
}

/** ` as morphine-hydrochloride`, or nothing. */
export function formText({ slots: { salt } }: LimitRow): string {
  return salt ? ` as ${salt.name}` : "";
}

/** In base units; zero where it has no lower end. */
function lowOf({ slots }: LimitRow): Exact {
  const low = slots.limits.low?.measure.quantity;
  return low ? inBase(low) : Exact.zero;
}

function boundText({ low, high }: BoundSlot): string {
  const from = low ? `${low.included ? "from" : "above"} ${low.measure.written}` : "";
  const to = high ? `${high.included ? "up to" : "below"} ${high.measure.written}` : "";
  return [from, to].filter(Boolean).join(" ") || "any";
}

/** `for route intravenous, access peripheral`. */
export function circumstances(row: LimitRow): string {
  const { route, access, use } = row.slots;
  const parts = [
    route ? `route ${route.name}` : "any route",
    access ? `access ${access.choice}` : "",
    use ? `use ${use.choice}` : "",
  ];
  return `for ${parts.filter(Boolean).join(", ")}`;
}
