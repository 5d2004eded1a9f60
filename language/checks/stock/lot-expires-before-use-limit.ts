import { addDays, type CalendarDate, compareDates, dateText, daysInMonth } from "../../model/dates.ts";
import { Exact } from "../../quantities/exact.ts";
import { inBase, type Quantity } from "../../quantities/quantity.ts";
import { recipeCheck } from "../check.ts";
import { example } from "../example.ts";
import { isUsable, lastDayText } from "./shelf.ts";

// A lot that near its expiry is announced anyway; this site leaves that to its store, so that one finding stands alone here.
const storeAnnounces: [string, string] = [
  "  role           pharmacist\n",
  `  role           pharmacist\n  severity       lot-expires-soon off  because "the store announces what comes near its expiry"\n`,
];

export const lotExpiresBeforeUseLimit = recipeCheck({
  name: "lot-expires-before-use-limit",
  family: "stock",
  severity: "warning",
  title: "A lot expires while the finished preparation may still be used",
  why: "A preparation must not be dated beyond the expiry of anything in it.",
  source:
    "Wisconsin Administrative Code, Pharmacy Examining Board, Phar 15.37 Beyond use dating (State of Wisconsin, current through 25 November 2024, Phar 15.37(1)): no component may expire before the limit",
  rows: ["expiry expiry-vs-bud", "beyond-use-dates bud-not-past-component-expiry"],
  bad: example(storeAnnounces, [`lot "KQ-2291"  expires 2027-04`, `lot "KQ-2291"  expires 2026-11-25`]),
  good: example(storeAnnounces, [`lot "KQ-2291"  expires 2027-04`, `lot "KQ-2291"  expires 2026-11-26`]),
  *find({ recipe, run, lookup, asOf }) {
    const stocks = new Set(run.finals.flatMap((vessel) => vessel.liquid.stocks));
    for (const preparation of recipe.preparations) {
      const limits = preparation.facts.all("use-within").flatMap((fact) => {
        const end = lastUse(asOf, fact.slots.time.quantity);
        return end ? [{ fact, end }] : [];
      });
      const latest = limits.sort((a, b) => compareDates(b.end, a.end))[0];
      if (!latest) continue;
      for (const stock of stocks) {
        for (const lot of lookup.lots(stock)) {
          if (!isUsable(lot, asOf) || compareDates(lot.expires!.lastDay, latest.end) >= 0) continue;
          yield { at: latest.fact, lot, end: latest.end, written: latest.fact.slots.time.written };
        }
      }
    }
  },
  say: ({ lot, end, written }, { asOf }) => ({
    text: `Made on ${dateText(asOf)}, ${written} can run until ${dateText(end)}, but lot ${lot.lot} of ${lot.stock} may be used only until ${lastDayText(lot)}. Use a later lot, or date the preparation no later than that.`,
    related: lot.place ? [{ at: lot.place, text: `lot ${lot.lot}, until ${lastDayText(lot)}` }] : [],
  }),
});

/** The last calendar day that the limit can reach, begun at any hour of the day: 6 h begun in the evening end on the next day. */
function lastUse(asOf: CalendarDate, time: Quantity | undefined): CalendarDate | undefined {
  if (!time?.value.isPositive()) return undefined;
  const amount = inBase(time);
  switch (time.unit.dimension.key) {
    case "time":
      return addDays(asOf, whole(amount.over(Exact.of(24))));
    case "calendarDays":
      return addDays(asOf, whole(amount));
    case "calendarMonths":
      return monthsLater(asOf, whole(amount));
    default:
      return undefined;
  }
}

/** Up; a limit beyond thirty years is as good as thirty years here. */
function whole(days: Exact): number {
  return Number(Exact.least(days.ceil(), Exact.of(11000)).toText());
}

function monthsLater(from: CalendarDate, months: number): CalendarDate {
  const count = from.year * 12 + (from.month - 1) + Math.min(months, 360);
  const year = Math.floor(count / 12);
  const month = (count % 12) + 1;
  return { year, month, day: Math.min(from.day, daysInMonth(year, month)) };
}
