import type { Declaration } from "../../model/declaration.ts";
import type { NameSlot } from "../../model/slots.ts";
import { libraryCheck } from "../check.ts";
import { declarationsBehind } from "../declarations-behind.ts";
import { example, standardAnd } from "../example.ts";
import { isInSameFile } from "../same-file.ts";

interface Twice {
  at: NameSlot;
  /** The one that is used, and one more. */
  first: Declaration;
  other: Declaration;
  /** Where it is told: at the other; at the first where that stands in another file; at a recipe that takes its figures from one. */
  told: "first" | "other" | "recipe";
}

export const declaredTwice = libraryCheck<Twice>({
  name: "declared-twice",
  family: "structure",
  severity: "error",
  title: "One name for two declarations",
  why: "Which of the two is meant would be a guess.",
  source: "common practice",
  bad: standardAnd(`reference magnesium-sulfate {
  title     "A reference with the name of a drug"
  invented  yes
}
`),
  good: example(),
  *find({ declaration, lookup, chunk }) {
    if (declaration.kind === "lots" || declaration.kind === "site") return;
    const at = declaration.name;
    const first = lookup.any(at.name);
    const second = lookup.second(at.name);
    if (first && first !== declaration) yield { at, first, other: declaration, told: "other" };
    else if (first && second && !isInSameFile(first.chunk, second.chunk)) {
      yield { at, first, other: second, told: "first" };
    }
    if (declaration.kind !== "recipe" || lookup.namesTwice().size === 0) return;
    // Whoever checks the recipe alone would see nothing and take its figures for certain.
    const told = new Set<Declaration>();
    for (const { at, of, other } of declarationsBehind(declaration, lookup)) {
      if (!other || told.has(of) || isInSameFile(of.chunk, chunk) || isInSameFile(other.chunk, chunk)) continue;
      told.add(of);
      yield { at, first: of, other, told: "recipe" };
    }
  },
  say({ first, other, told }) {
    const name = `\`${first.name.name}\``;
    const isSame = first.kind === other.kind;
    if (told === "other") {
      return {
        text: `${name} is already the name of a ${first.kind}${isSame ? "; the first is used" : ""}. Give one of them another name.`,
        related: placesOf([first, "first declared here"]),
      };
    }
    if (told === "first") {
      return {
        text: `${name} is declared again${isSame ? "; this one is used" : `, as a ${other.kind}`}. Give one of them another name.`,
        related: placesOf([other, "declared again here"]),
      };
    }
    return {
      text: `${name} is declared twice, so which figures belong in this recipe is a guess. Give one of the two another name, or take it out.`,
      related: placesOf([first, "the first, which is used"], [other, "the other"]),
    };
  },
});

function placesOf(...each: readonly (readonly [Declaration, string])[]) {
  return each.map(([{ chunk, name }, text]) => ({ at: { chunk, start: name.start, end: name.end }, text }));
}
