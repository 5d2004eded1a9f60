import { makingOf, makingWords, policyLimits, siteEdition } from "../../bench/beyond-use.ts";
import { isLongerTime } from "../../bench/stable-rows.ts";
import { writtenCheck } from "../check.ts";
import { replaceText } from "../edits.ts";
import { example } from "../example.ts";

/** The drug's own row allows ten days, so that the table alone is in the way. */
const stableForLong: [string, string] = ["    for            24 h\n", "    for            10 days\n"];

export const useWithinLongerThanPolicy = writtenCheck({
  name: "use-within-longer-than-policy",
  family: "stability",
  severity: "error",
  title: "Used for longer than the site's beyond-use policy allows",
  why: "A drug that is stable may still grow germs: the table is a ceiling for what is made and kept in this way.",
  source:
    "Wisconsin Administrative Code, Pharmacy Examining Board, Phar 15.37 Beyond use dating (State of Wisconsin, current through 25 November 2024, Phar 15.37(1)): limits by category and storage; the site names its own table. Master formulation and compounding records (study page restating USP <795> and <797> 2023, February 2024, list of the master record): beyond-use date and storage",
  rows: ["record-elements mfr-bud-storage", "beyond-use-dates bud-min-of-stability-and-table"],
  bad: example(stableForLong, ["    use-within     24 h at room", "    use-within     5 days at room"]),
  good: example(
    stableForLong,
    ["    use-within     24 h at room", "    use-within     20 days at room"],
    ["    for            10 days\n", "    for            20 days\n"],
    [
      "    form           solution",
      "    sterility      aseptic tested\n    category       2\n    form           solution",
    ],
  ),
  *find({ recipe, policy }) {
    for (const preparation of recipe.preparations) {
      for (const stated of preparation.facts.all("use-within")) {
        const { time, place } = stated.slots;
        const container = preparation.name.name;
        const limit = policyLimits(recipe, container, place.name, policy).find((l) => l.limits);
        // A figure that nobody saw in print carries no error: use-within-not-compared tells it.
        if (limit?.footing !== "read" || !time.quantity?.value.isPositive()) continue;
        if (limit.time && !isLongerTime(time.quantity, limit.time)) continue;
        yield { at: stated, stated: stated.slots, limit, making: makingOf(recipe, container, policy) };
      }
    }
  },
  say: ({ stated, limit, making }, { policy }) => {
    const categories = siteEdition(policy)?.categories ?? [];
    const other = categories.length > 1 || making.tested === false;
    return {
      text: `Use within ${stated.time.written} at ${stated.place.name}, but ${limit.name} allows ${limit.written} there for what is ${makingWords(making)}. Shorten the limit to ${limit.written}${other ? ", or state the preparation's own `category` or `sterility`" : ""}. Source: ${limit.source}.`,
    };
  },
  fixes: ({ stated, limit }) =>
    limit.time ? [{ title: `Use within ${limit.written}`, edits: [replaceText(stated.time, limit.written)] }] : [],
});
