import { makingOf, siteEdition } from "../../bench/beyond-use.ts";
import type { Run } from "../../bench/run.ts";
import { vesselsOf } from "../../bench/setup.ts";
import { thingName, type Vessel } from "../../bench/things.ts";
import { policyRow, policySource } from "../../model/beyond-use-policy.ts";
import { recipeCheck } from "../check.ts";
import { example } from "../example.ts";

interface TooMany {
  at: { start: number; end: number };
  container: string;
  /** What was counted and how many are allowed. */
  what: string;
  count: number;
  most: number;
  source: string;
}

const edition = "usp-797-2023 category 2";

/** Four ampoules of 1 g and the bag are five packages. */
const fourAmpoules = (policy: string) =>
  example(
    [edition, policy],
    ["  fill       10 mL\n", '  fill       2 mL\n  one-filter-for  4  source guide "magnesium"\n'],
    ["    mag          magnesium", "    mag          4 x magnesium"],
    ["    use-within     24 h", "    use-within     4 h"],
  );

export const immediateUseTooMany = recipeCheck<TooMany>({
  name: "immediate-use-too-many",
  family: "stability",
  severity: "warning",
  title: "More packages, entries or products than an immediate-use preparation may have",
  why: "Immediate use is allowed without a clean room because little is opened; with more, the category no longer fits.",
  source:
    "Wisconsin clearinghouse rule CR 22-007, text recreating Phar 15.34 Immediate use compounded sterile preparations (State of Wisconsin, 2022): at most three packages and two entries into any one container",
  bad: fourAmpoules("wisconsin-phar-15 category immediate-use"),
  good: fourAmpoules("usp-797-2023 category immediate-use"),
  *find({ recipe, run, policy }) {
    const site = siteEdition(policy);
    if (!site) return;
    for (const preparation of recipe.preparations) {
      const container = preparation.name.name;
      const row = policyRow(site, makingOf(recipe, container, policy), "room-temperature");
      if (!row?.most) continue;
      const base = { at: preparation.name, container, source: policySource(row) };
      const { packages, entries, products } = row.most;
      const opened = openedPackages(run);
      if (packages !== undefined && opened.length > packages)
        yield { ...base, what: "packages are opened", count: opened.length, most: packages };
      const most = opened.find((v) => entries !== undefined && v.punctures > entries);
      if (most && entries !== undefined)
        yield { ...base, what: `entries are made into ${thingName(most)}`, count: most.punctures, most: entries };
      const different = new Set(run.finals.flatMap((v) => (v.name === container ? v.liquid.stocks : [])));
      if (products !== undefined && different.size > products)
        yield { ...base, what: "different products go in", count: different.size, most: products };
    }
  },
  say: ({ container, what, count, most, source }) => ({
    text: `${container} is made for immediate use: ${count} ${what}, and at most ${most} are allowed. Use fewer, or make it under another category. Source: ${source}.`,
  }),
});

/** Bought containers that the steps open or enter; empty ones hold no product. */
function openedPackages(run: Run): Vessel[] {
  return [...run.groups.values()].flatMap((group) =>
    vesselsOf(group).filter((v) => v.stock && !v.kind.startsWith("empty") && (v.opened || v.punctures > 0)),
  );
}
