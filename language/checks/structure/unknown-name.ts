import type { DeclarationKind } from "../../model/declaration.ts";
import { nearNames } from "../../model/near.ts";
import type { NameSlot } from "../../model/slots.ts";
import { libraryCheck } from "../check.ts";
import type { LibraryContext } from "../context.ts";
import { replaceText } from "../edits.ts";
import { example } from "../example.ts";
import { namesUsed } from "../names-used.ts";
import { didYouMean, oneOf } from "../showing.ts";

interface Unknown {
  at: NameSlot;
  name: string;
  kinds: readonly DeclarationKind[];
  /** A declaration of this name, but of another kind. */
  other: string | undefined;
}

export const unknownName = libraryCheck<Unknown>({
  name: "unknown-name",
  family: "structure",
  severity: "error",
  title: "A name that the library does not declare",
  why: "What is not declared cannot be checked: no strength, no limit, no lot.",
  source: "common practice",
  bad: example(["    mag          magnesium-ampoule", "    mag          magnesium-ampule"]),
  good: example(),
  *find({ declaration, lookup }) {
    for (const { name, kinds } of namesUsed(declaration)) {
      const known = kinds.some((kind) => {
        if (kind === "recipe" || kind === "lots") return lookup.names(kind).includes(name.name);
        return lookup.find(kind, name.name) !== undefined;
      });
      if (!known) yield { at: name, name: name.name, kinds, other: lookup.any(name.name)?.kind };
    }
  },
  say(found, { lookup }) {
    const wanted = oneOf(found.kinds.map((kind) => `a ${kind}`));
    if (found.other) {
      return { text: `\`${found.name}\` is a ${found.other}; here belongs ${wanted}. Name the right one.` };
    }
    return {
      text: `The library declares no ${oneOf(found.kinds)} \`${found.name}\`.${didYouMean(near(found, lookup))} Name a declared one, or declare it.`,
    };
  },
  fixes: (found, { lookup }) =>
    found.other
      ? []
      : near(found, lookup).map((name) => ({ title: `Write ${name}`, edits: [replaceText(found.at, name)] })),
});

function near(found: Unknown, lookup: LibraryContext["lookup"]): string[] {
  return nearNames(
    found.name,
    found.kinds.flatMap((kind) => lookup.names(kind)),
  );
}
