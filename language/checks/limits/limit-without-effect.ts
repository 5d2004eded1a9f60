import type { Drug } from "../../model/declaration.ts";
import type { BoundSlot, ConditionSlot, MeasureSlot } from "../../model/slots.ts";
import { compareQuantities, type Quantity } from "../../quantities/quantity.ts";
import { declarationCheck } from "../check.ts";
import { example } from "../example.ts";
import { circumstances, type LimitRow, limitsText } from "./limit-row.ts";
import { isSameRoute, routeMeant } from "./route-words.ts";

const words = ["dose", "concentration", "usual-concentration", "rate"] as const;

interface WithoutEffect {
  at: LimitRow;
  other: LimitRow;
  /** For the very same circumstances; otherwise for all of which these are some. */
  isSame: boolean;
  /** The end of it that is never reached, where the rest of it holds. */
  end: string | undefined;
}

const limit = "  concentration  up to 200 mg/mL for route intravenous\n";

export const limitWithoutEffect = declarationCheck<WithoutEffect>({
  name: "limit-without-effect",
  family: "limits",
  severity: "warning",
  title: "A limit that another row makes void",
  why: "Rows for the same circumstances add up, so that a stricter one beside a wider one forbids nothing; of rows for wider and narrower circumstances the stricter counts.",
  source: "common practice",
  bad: example([limit, `${limit}  concentration  up to 60 mg/mL for route intravenous\n`]),
  good: example([limit, `${limit}  concentration  up to 60 mg/mL for route intravenous access peripheral\n`]),
  *find({ declaration }) {
    if (declaration.kind !== "drug") return;
    for (const word of words) {
      const rows = rowsOf(declaration, word);
      for (const [k, row] of rows.entries()) {
        const wider = rows.find((other, i) => other !== row && coversAlike(other, row, i < k));
        if (wider) {
          yield { at: row, other: wider, isSame: true, end: undefined };
          continue;
        }
        // Of a dose the rows for its route stand in the place of those for any.
        if (word === "dose") continue;
        for (const other of rows) {
          if (!isForMore(other, row) || isOneOfSeveral(other, rows)) continue;
          const end = endBeyond(row.slots.limits, other.slots.limits);
          if (end !== undefined) yield { at: row, other, isSame: false, end };
        }
      }
    }
  },
  say: ({ at, other, isSame, end }) => {
    const whose = `${limitsText([other])} ${circumstances(other)}`;
    const related = [{ at: other, text: "the other row" }];
    if (isSame) {
      const text = `The row \`${limitsText([at])}\` changes nothing: ${whose}${other.when ? " under the same condition" : ""} allows all of it, and rows for the same circumstances add up. Keep the one that is meant, or set them apart by access, use or \`when\` on both.`;
      return { text, related };
    }
    const text = `${end} ${circumstances(at)} is never reached: ${whose} holds there too, and the stricter counts. Correct one of them, or let the wider row speak of the other circumstances alone.`;
    return { text, related };
  },
});

function rowsOf({ facts }: Drug, word: (typeof words)[number]): readonly LimitRow[] {
  return facts.all(word) as readonly LimitRow[];
}

/** Whether a row lets pass whatever this one does, for the same circumstances; of two that are equal the later says nothing new. */
function coversAlike(other: LimitRow, row: LimitRow, isBefore: boolean): boolean {
  if (keyOf(other) !== keyOf(row) || !(other.when === undefined || isSameCondition(other.when, row.when))) return false;
  const all = isWithin(row.slots.limits, other.slots.limits);
  const isEqual = all && isWithin(other.slots.limits, row.slots.limits) && isSameCondition(other.when, row.when);
  return all === true && (!isEqual || isBefore);
}

function keyOf({ slots: { ion, salt, route, access, use } }: LimitRow): string {
  const usual = route && routeMeant(route.name);
  return [ion?.name, salt?.name, usual, access?.choice, use?.choice].map((each) => each ?? "any").join(" ");
}

/** It speaks of these circumstances and of others. */
function isForMore({ slots: more, when }: LimitRow, { slots: few, ...row }: LimitRow): boolean {
  if (when !== undefined || keyOf({ slots: more } as LimitRow) === keyOf({ slots: few, ...row })) return false;
  return (
    more.ion?.name === few.ion?.name &&
    more.salt?.name === few.salt?.name &&
    (!more.route || isSameRoute(more.route.name, few.route?.name ?? "")) &&
    (!more.access || more.access.choice === few.access?.choice) &&
    (!more.use || more.use.choice === few.use?.choice)
  );
}

/** Rows for its own circumstances add up with it. */
function isOneOfSeveral(row: LimitRow, rows: readonly LimitRow[]): boolean {
  return rows.some((other) => other !== row && keyOf(other) === keyOf(row));
}

function isWithin(inner: BoundSlot, outer: BoundSlot): boolean | undefined {
  const low = isAsStrict("low", inner.low, outer.low);
  const high = isAsStrict("high", inner.high, outer.high);
  return low === undefined || high === undefined ? undefined : low && high;
}

/** The end of a row that lies beyond another, where both are known. */
function endBeyond({ low, high }: BoundSlot, other: BoundSlot): string | undefined {
  if (high && isAsStrict("high", high, other.high) === false)
    return `${high.included ? "Up to" : "Below"} ${high.measure.written}`;
  if (low && isAsStrict("low", low, other.low) === false)
    return `${low.included ? "From" : "Above"} ${low.measure.written}`;
  return undefined;
}

type End = { measure: MeasureSlot; included: boolean } | undefined;

/** Whether an end forbids at least as much as the other; undefined where the two cannot be compared. */
function isAsStrict(side: "low" | "high", inner: End, outer: End): boolean | undefined {
  if (!outer) return true;
  if (!inner) return false;
  const order = compared(inner, outer);
  if (order === undefined) return undefined;
  if (order === 0) return outer.included || !inner.included;
  return side === "low" ? order > 0 : order < 0;
}

function compared({ measure: one }: NonNullable<End>, { measure: other }: NonNullable<End>): number | undefined {
  const [a, b]: (Quantity | undefined)[] = [one.quantity, other.quantity];
  return a && b && a.unit.dimension === b.unit.dimension ? compareQuantities(a, b) : undefined;
}

function isSameCondition(one: ConditionSlot | undefined, other: ConditionSlot | undefined): boolean {
  if (!one || !other) return one === other;
  return (
    one.input.name === other.input.name &&
    isWithin(one.bound, other.bound) === true &&
    isWithin(other.bound, one.bound) === true
  );
}
