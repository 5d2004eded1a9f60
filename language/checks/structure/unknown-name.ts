import type { DeclarationKind } from "../../model/declaration.ts";
import { nearNamesIn } from "../../model/near.ts";
import type { NameSlot } from "../../model/slots.ts";
import { libraryCheck } from "../check.ts";
import type { LibraryContext } from "../context.ts";
import { replaceText } from "../edits.ts";
import { example } from "../example.ts";
import { namesUsed } from "../names-used.ts";
import { didYouMean, oneOf } from "../showing.ts";
import { type UnreadElsewhere, unreadElsewhere } from "../unread-elsewhere.ts";

interface Unknown {
  at: NameSlot;
  name: string;
  kinds: readonly DeclarationKind[];
  /** A declaration of this name, but of another kind. */
  other: string | undefined;
  /** The name is declared, with lines that cannot be read. */
  unread?: UnreadElsewhere;
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
  *find({ declaration, lookup, chunk }) {
    if (declaration.kind === "recipe") {
      for (const unread of unreadElsewhere(declaration, lookup, chunk))
        yield { at: unread.at, name: unread.at.name, kinds: [], other: undefined, unread };
    }
    for (const { name, kinds, isOrContained } of namesUsed(declaration)) {
      if (isOrContained) continue;
      const known = kinds.some((kind) => {
        if (kind === "recipe" || kind === "lots") return lookup.names(kind).includes(name.name);
        return lookup.find(kind, name.name) !== undefined;
      });
      if (!known) yield { at: name, name: name.name, kinds, other: lookup.any(name.name)?.kind };
    }
  },
  say(found, { lookup }) {
    if (found.unread) {
      const { of, words } = found.unread;
      const name = of.kind === "site" ? "the site" : `${of.kind} ${of.name.name}`;
      return {
        text: `What ${name} says of ${words.join(", ")} cannot be read, so what rests on it was not checked. Mend it there.`,
        related: [{ at: { start: of.head.start, end: of.head.end, chunk: of.chunk }, text: name }],
      };
    }
    const wanted = oneOf(found.kinds.map((kind) => `a ${kind}`));
    if (found.other) {
      return { text: `\`${found.name}\` is a ${found.other}; here belongs ${wanted}. Name the right one.` };
    }
    return {
      text: `The library declares no ${oneOf(found.kinds)} \`${found.name}\`.${didYouMean(near(found, lookup))} Name a declared one, or declare it.`,
    };
  },
  fixes: (found, { lookup }) =>
    found.other || found.unread
      ? []
      : near(found, lookup).map((name) => ({ title: `Write ${name}`, edits: [replaceText(found.at, name)] })),
});

function near(found: Unknown, lookup: LibraryContext["lookup"]): string[] {
  return nearNamesIn(
    found.name,
    found.kinds.map((kind) => lookup.names(kind)),
  );
}
