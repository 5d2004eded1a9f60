/** What the site's beyond-use table says of a preparation: by its category, how it is made, and where it is kept. Needs no run. */
import { policyEdition } from "../model/beyond-use-policies.ts";
import {
  isSeen,
  type Making,
  type PolicyEdition,
  policyRow,
  policySource,
  tablePlace,
  usualMaking,
} from "../model/beyond-use-policy.ts";
import type { Recipe } from "../model/declaration.ts";
import type { Policy } from "../model/policy.ts";
import { Exact } from "../quantities/exact.ts";
import { hours } from "../quantities/hours.ts";
import { showQuantity } from "../quantities/quantity.ts";
import type { UseLimit } from "./use-limit.ts";

/** The edition that the site names, where it is known. */
export function siteEdition(policy: Policy): PolicyEdition | undefined {
  return policy.beyondUse && policyEdition(policy.beyondUse.edition);
}

/** How the recipe says that this container is made; its own category goes before the site's. */
export function makingOf(recipe: Recipe, container: string, policy: Policy): Making {
  const facts = recipe.preparations.find((p) => p.name.name === container)?.facts;
  const own = facts?.one("category")?.slots;
  const sterility = facts?.one("sterility")?.slots;
  return {
    category: own?.number?.written ?? own?.level?.name ?? policy.beyondUse?.category,
    process: sterility?.process.choice ?? usualMaking.process,
    tested: sterility?.test?.choice === "tested",
    components: sterility?.parts ? "nonsterile" : usualMaking.components,
  };
}

/** What the edition says of the end of giving; listed, since it is no limit to how long the container is kept before. */
function endOfGiving(edition: PolicyEdition): UseLimit[] {
  return edition.rows.flatMap((row) => {
    if (row.speaksOf !== "end of giving" || !row.limit) return [];
    return [
      {
        kind: "policy" as const,
        name: edition.name,
        time: row.limit,
        written: showQuantity(row.limit),
        hours: hours(row.limit, 28)!,
        footing: isSeen(row) ? ("read" as const) : ("recalled" as const),
        source: policySource(row),
        counted: "from the start of preparation to the end of giving",
        onlyIf: row.onlyIf,
        limits: false,
        place: undefined,
      },
    ];
  });
}

/**
 * What the site's table says of a container kept at a place; needs no run. What is missing is added to `open`.
 */
export function policyLimits(
  recipe: Recipe,
  container: string,
  at: string,
  policy: Policy,
  open: string[] = [],
): UseLimit[] {
  const edition = siteEdition(policy);
  if (!edition) {
    open.push(
      policy.beyondUse ? `no policy is known by the name ${policy.beyondUse.edition}` : "the site names no policy",
    );
    return [];
  }
  const making = makingOf(recipe, container, policy);
  const name = making.category === undefined ? edition.name : `${edition.name} category ${making.category}`;
  const row = policyRow(edition, making, at);
  if (!row) {
    open.push(
      tablePlace(at) === undefined && edition.rows.length > 0
        ? `${name} has no row for ${at}`
        : `${name} has no row for what is ${makingWords(making)} and kept at ${at}`,
    );
    return [];
  }
  return [
    ...endOfGiving(edition),
    {
      kind: "policy",
      name,
      time: row.limit,
      written: row.limit ? showQuantity(row.limit) : "not kept there at all",
      hours: row.limit ? hours(row.limit, 28)! : Exact.zero,
      footing: isSeen(row) ? "read" : "recalled",
      source: policySource(row),
      counted: "from the start of preparation",
      onlyIf: row.onlyIf,
      limits: true,
      place: undefined,
    },
  ];
}

/** `made aseptically, untested`. */
export function makingWords({ process, tested, components }: Making): string {
  const made = process === "aseptic" ? "made aseptically" : "terminally sterilised";
  return `${made}${components === "nonsterile" ? " from nonsterile components" : ""}, ${tested ? "tested" : "untested"}`;
}
