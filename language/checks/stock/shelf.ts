/** Lots on the shelf, each once and at a place where a finding may stand. */
import { isExpired } from "../../model/dates.ts";
import type { LotOnShelf } from "../../model/lookup.ts";
import type { Spot } from "../../model/slots.ts";
import type { LibraryContext } from "../context.ts";

export interface PlacedLot {
  /** In the chunk at hand: the lot's own line, or the name of the stock where the lot comes from an inventory file. */
  at: Spot;
  lot: LotOnShelf;
}

/** The lots that belong to the declaration at hand: those of a `lots` block, or a stock's lots from inventory files. */
export function lotsOf({ declaration, lookup }: LibraryContext): PlacedLot[] {
  if (declaration.kind === "lots") {
    const rows = new Set(declaration.facts.all("lot").map((f) => f.start));
    return lookup
      .lots(declaration.name.name)
      .filter((lot) => lot.place?.chunk === declaration.chunk && rows.has(lot.place.start))
      .map((lot) => ({ at: { start: lot.place!.start, end: lot.place!.end }, lot }));
  }
  if (declaration.kind !== "stock") return [];
  const { start, end } = declaration.name;
  return lookup
    .lots(declaration.name.name)
    .filter((lot) => lot.inventory)
    .map((lot) => ({ at: { start, end }, lot }));
}

/** `Lot KQ-2291 of magnesium-ampoule`, with the inventory file where it comes from one. */
export function lotName(lot: LotOnShelf): string {
  const file = lot.inventory ? ` (inventory ${lot.inventory.file})` : "";
  return `Lot ${lot.lot} of ${lot.stock}${file}`;
}

/** `2027-04-30`, or `the end of 2027-04` where only the month is printed. */
export function lastDayText(lot: LotOnShelf): string {
  const { expires } = lot;
  if (!expires) return "an unknown day";
  const { year, month, day } = expires.lastDay;
  const full = `${year}-${String(month).padStart(2, "0")}-${String(day).padStart(2, "0")}`;
  return expires.text === full ? full : `${full} (printed ${expires.text})`;
}

/** Usable on the day; false where its date cannot be read, because nobody can say that it is not expired. */
export function isUsable(lot: LotOnShelf, asOf: LibraryContext["asOf"]): boolean {
  return lot.expires !== undefined && !isExpired(lot.expires, asOf);
}
