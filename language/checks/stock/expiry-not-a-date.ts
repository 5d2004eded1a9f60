import { isDateFault, parseExpiry } from "../../model/dates.ts";
import { libraryCheck } from "../check.ts";
import { example } from "../example.ts";
import { lotName, lotsOf } from "./shelf.ts";

const lot = `  lot "KQ-2291"  expires 2027-04\n`;

export const expiryNotADate = libraryCheck({
  name: "expiry-not-a-date",
  family: "stock",
  severity: "error",
  title: "An expiry that is no day of the calendar",
  why: "A date that cannot be read cannot warn anybody.",
  source:
    "from memory: ISO 8601 (2019), calendar dates and reduced precision; common practice: a day that does not exist is refused, never moved",
  rows: ["expiry iso8601", "expiry not-dd-mm-guess"],
  bad: example([lot, `${lot}  lot "KQ-2304"  expires 2027-02-30\n`]),
  good: example([lot, `${lot}  lot "KQ-2304"  expires 2027-02-28\n`]),
  *find(context) {
    const { declaration, policy } = context;
    if (declaration.kind === "lots") {
      for (const { slots, start, end } of declaration.facts.all("lot")) {
        const read = parseExpiry(slots.expires.text, policy.monthOnly);
        if (isDateFault(read))
          yield {
            at: { start: slots.expires.start, end: slots.expires.end },
            text: `Lot ${slots.lot.text}: ${read.message}`,
            line: { start, end },
          };
      }
    }
    for (const { at, lot } of lotsOf(context)) {
      if (lot.inventory && !lot.expires)
        yield { at, text: `${lotName(lot)}: its expiry cannot be read. Correct it in the inventory.`, line: at };
    }
  },
  say: ({ text }) => ({ text }),
});
