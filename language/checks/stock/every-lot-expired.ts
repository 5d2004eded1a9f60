import { dateText, isExpired } from "../../model/dates.ts";
import { recipeCheck } from "../check.ts";
import { example } from "../example.ts";
import { isUsable, lastDayText } from "./shelf.ts";

// The expired lot itself is another finding; this site leaves that one to its store, so that one finding stands alone here.
const storeSorts: [string, string] = [
  "  role           pharmacist\n",
  `  role           pharmacist\n  severity       lot-expired off  because "the store clears its shelves every night"\n`,
];

export const everyLotExpired = recipeCheck({
  name: "every-lot-expired",
  family: "stock",
  severity: "error",
  title: "No lot of a material may still be used",
  why: "The recipe cannot be made today, and the hand reaches for what is there.",
  source:
    "Is the expiration date of a drug the first or last day of the month? (public pharmacist answer restating USP, 28 March 2024)",
  rows: ["expiry expired-is-after"],
  bad: example(storeSorts, [`lot "KQ-2291"  expires 2027-04`, `lot "KQ-2291"  expires 2026-10`]),
  good: example(storeSorts, [
    `lot "KQ-2291"  expires 2027-04`,
    `lot "KQ-2291"  expires 2026-10\n  lot "KQ-2304"  expires 2027-05`,
  ]),
  *find({ recipe, lookup, asOf }) {
    const told = new Set<string>();
    for (const material of recipe.materials) {
      if (!lookup.find("stock", material.item.name) || told.has(material.item.name)) continue;
      told.add(material.item.name);
      const lots = lookup.lots(material.item.name);
      if (lots.some((lot) => isUsable(lot, asOf))) continue;
      const expired = lots.filter((lot) => lot.expires && isExpired(lot.expires, asOf));
      if (expired.length > 0) yield { at: material.item, stock: material.item.name, lots, expired };
    }
  },
  say: ({ stock, lots, expired }, { asOf }) => {
    const which = expired.map((lot) => `${lot.lot}, expired after ${lastDayText(lot)}`).join("; ");
    const unread = lots.length - expired.length;
    const others =
      unread > 0
        ? ` ${unread === 1 ? "The date of one more lot" : `The dates of ${unread} more lots`} cannot be read.`
        : "";
    return {
      text: `No lot of ${stock} may be used on ${dateText(asOf)}: ${which}.${others} Get new stock, or name another product.`,
      related: expired.flatMap((lot) =>
        lot.place ? [{ at: lot.place, text: `lot ${lot.lot}, until ${lastDayText(lot)}` }] : [],
      ),
    };
  },
});
