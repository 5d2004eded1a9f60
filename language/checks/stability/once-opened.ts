/** What a drug's monograph says of a product that is opened or dissolved and not yet in the finished container. */

import { isLongerTime } from "../../bench/stable-rows.ts";
import type { Drug, Stock } from "../../model/declaration.ts";
import type { MeasureSlot, Spot } from "../../model/slots.ts";
import { isSamePlace } from "../../model/usual-words.ts";
import type { StableRow } from "./stable-rows.ts";

/** A row's line `for 24 h`. */
export type StableFor = Spot & { slots: { time: MeasureSlot } };

/**
 * The rows that may speak of it once it is opened, kept at a place or anywhere. Of a powder those of its solution in what its label
 * dissolves it with; strength and material are left aside, so that none is missed that holds.
 */
export function rowsOnceOpened(stock: Stock, drug: Drug, place: string | undefined): StableRow[] {
  const isPowder = stock.facts.one("container")?.slots.kind.choice === "powder-vial";
  const fluid = stock.reconstitute?.one("with")?.slots.fluid.name;
  return drug.stable.filter((row) => {
    const at = row.one("at")?.slots.place.name;
    if (place !== undefined && at !== "any" && (at === undefined || !isSamePlace(at, place))) return false;
    const event = row.one("counted-from")?.slots.event.choice;
    return isPowder ? event === "reconstitution" && isIn(row, fluid) : event === "opening";
  });
}

/** A row for the fluid, or for any; where no fluid is stated each row may be meant. */
export function isIn(row: StableRow, fluid: string | undefined): boolean {
  const named = row.one("in")?.slots.fluid.name;
  return fluid === undefined || named === undefined || named === "any" || named === fluid;
}

/** The longest time of several rows; undefined where there is none, or where one cannot be read. */
export function longestOf(rows: readonly StableRow[]): StableFor | undefined {
  let longest: StableFor | undefined;
  for (const row of rows) {
    const fact = row.one("for");
    if (!fact?.slots.time.quantity) return undefined;
    if (!longest || isLongerTime(fact.slots.time.quantity, longest.slots.time.quantity)) longest = fact;
  }
  return longest;
}

/** For the texts of checks: the small powder library with a row of the dissolved powder kept anywhere. */
export function solutionRow(time: string): [string, string] {
  const table = '  stable {\n    source         guide "table 9"\n';
  const row = `  stable {
    source         guide "table 8"
    in             water-for-injection
    at             any
    concentration  any
    made-of        any
    light          any
    counted-from   reconstitution
    for            ${time}
  }
`;
  return [table, row + table];
}
