import type { LotOnShelf } from "../../model/lookup.ts";
import { libraryCheck } from "../check.ts";
import { withoutLine } from "../edits.ts";
import { example } from "../example.ts";
import { lastDayText, lotsOf } from "./shelf.ts";

const lot = `  lot "KQ-2291"  expires 2027-04\n`;

export const lotRepeated = libraryCheck({
  name: "lot-repeated",
  family: "stock",
  severity: "warning",
  title: "A lot is listed twice for one stock",
  why: "Of two lines for one lot only one gets corrected, and the other is believed.",
  source:
    "GS1 Application Identifier definitions, AI (10) and (11) (GS1 General Specifications as reproduced, older edition, 3.4.1): a lot is text",
  rows: ["expiry lot-as-text"],
  bad: example([lot, `${lot}  lot "KQ-2291"  expires 2027-06\n`]),
  good: example([lot, `${lot}  lot "KQ-2292"  expires 2027-06\n`]),
  *find(context) {
    const own = lotsOf(context);
    if (own.length === 0) return;
    // Lot numbers are text: compared as they stand, zeros and capitals included.
    const firsts = new Map<string, LotOnShelf>();
    for (const lot of context.lookup.lots(own[0]!.lot.stock)) if (!firsts.has(lot.lot)) firsts.set(lot.lot, lot);
    for (const { at, lot } of own) {
      const first = firsts.get(lot.lot);
      if (first && !sameLine(first, lot)) yield { at, lot, first };
    }
  },
  say: ({ lot, first }) => {
    const dates =
      first.expires?.text === lot.expires?.text
        ? `both times with ${lastDayText(lot)}`
        : `once with ${lastDayText(first)} and once with ${lastDayText(lot)}`;
    return {
      text: `Lot ${lot.lot} of ${lot.stock} is listed twice, ${dates}. Compare with the pack and keep one line.`,
      related: first.place ? [{ at: first.place, text: "listed here first" }] : [],
    };
  },
  fixes: ({ at, lot, first }, { chunk }) =>
    lot.inventory || first.expires?.text !== lot.expires?.text
      ? []
      : [{ title: `Take the second line of lot ${lot.lot} out`, edits: [withoutLine(chunk.text, at)] }],
});

function sameLine(a: LotOnShelf, b: LotOnShelf): boolean {
  if (a.place && b.place) return a.place.chunk === b.place.chunk && a.place.start === b.place.start;
  return a.inventory?.file === b.inventory?.file && a.inventory?.start === b.inventory?.start && !a.place === !b.place;
}
