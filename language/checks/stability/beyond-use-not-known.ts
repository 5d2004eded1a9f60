import { policyEdition, policyEditions } from "../../model/beyond-use-policies.ts";
import type { Recipe } from "../../model/declaration.ts";
import type { Policy } from "../../model/policy.ts";
import type { Spot } from "../../model/slots.ts";
import { declarationCheck } from "../check.ts";
import { example } from "../example.ts";
import { oneOf } from "../showing.ts";

interface NotKnown {
  at: Spot;
  lacks: "policy" | "edition" | "category" | "known category" | "table";
  edition: string;
  category: string;
  categories: readonly string[];
}

const line = "  beyond-use     usp-797-2023 category 2\n";

export const beyondUseNotKnown = declarationCheck<NotKnown>({
  name: "beyond-use-not-known",
  family: "stability",
  severity: "note",
  title: "The site's beyond-use policy or its category is not known",
  why: "Without a table no stated limit is laid against one, however long it is; that must not pass as an all clear.",
  source:
    "Wisconsin Administrative Code, Pharmacy Examining Board, Phar 15.37 Beyond use dating (State of Wisconsin, current through 25 November 2024): one pharmacy uses one system of limits",
  bad: example([line, "  beyond-use     usp-797-2023\n"]),
  good: example(),
  *find({ declaration, policy }) {
    if (declaration.kind === "recipe") yield* ownCategories(declaration, policy);
    if (declaration.kind !== "site") return;
    const fact = declaration.facts.one("beyond-use");
    const found = { edition: "", category: "", categories: [] };
    if (!fact) {
      yield { ...found, at: declaration.head, lacks: "policy" };
      return;
    }
    const edition = policyEdition(fact.slots.edition.name);
    const category = fact.slots.category?.written ?? fact.slots.level?.name;
    const named = { ...found, edition: fact.slots.edition.name, category: category ?? "" };
    if (!edition) yield { ...named, at: fact, lacks: "edition" };
    else if (edition.rows.length === 0) yield { ...named, at: fact, lacks: "table" };
    else if (edition.categories.length > 0 && category === undefined)
      yield { ...named, at: fact, lacks: "category", categories: edition.categories };
    else if (category !== undefined && !edition.categories.includes(category))
      yield { ...named, at: fact, lacks: "known category", categories: edition.categories };
  },
  say: ({ lacks, edition, category, categories }) => ({ text: texts[lacks](edition, category, oneOf(categories)) }),
});

/** A preparation may state a category of its own; it must be one that the site's edition knows. */
function* ownCategories(recipe: Recipe, policy: Policy): Iterable<NotKnown> {
  const edition = policy.beyondUse && policyEdition(policy.beyondUse.edition);
  if (!edition || edition.rows.length === 0) return;
  for (const preparation of recipe.preparations) {
    const fact = preparation.facts.one("category");
    const category = fact?.slots.number?.written ?? fact?.slots.level?.name;
    if (!fact || category === undefined || edition.categories.includes(category)) continue;
    const { name, categories } = edition;
    yield { at: fact, lacks: "known category", edition: name, category, categories };
  }
}

const texts: Readonly<Record<NotKnown["lacks"], (edition: string, category: string, known: string) => string>> = {
  policy: () =>
    `The site names no beyond-use policy, so stated limits are laid against none. Add \`beyond-use\` with the edition and its category; known are ${oneOf(policyEditions.map((e) => e.name))}.`,
  edition: (edition) =>
    `No beyond-use policy is known by the name ${edition}, so stated limits are laid against none. Known are ${oneOf(policyEditions.map((e) => e.name))}; the site's own table is checked by a person.`,
  table: (edition) =>
    `${edition} limits what is left in opened containers and has no table for finished preparations, so stated limits are laid against none. Name the edition that the site uses for those.`,
  category: (edition, _, known) =>
    `${edition} sets its limits by category, and the site states none, so stated limits are laid against none. Add \`category\` with ${known}; a preparation that differs states its own.`,
  "known category": (edition, category, known) =>
    known === ""
      ? `${edition} knows no categories, and category ${category} is stated. Take the category out.`
      : `${edition} knows no category ${category}, so stated limits are laid against none. State ${known}.`,
};
