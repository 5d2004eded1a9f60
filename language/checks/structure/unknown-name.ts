import type { Chunk, DeclarationKind, Recipe } from "../../model/declaration.ts";
import type { Lookup } from "../../model/lookup.ts";
import { nearNames } from "../../model/near.ts";
import type { NameSlot } from "../../model/slots.ts";
import { libraryCheck } from "../check.ts";
import type { LibraryContext } from "../context.ts";
import { replaceText } from "../edits.ts";
import { example } from "../example.ts";
import { namesUsed } from "../names-used.ts";
import { isInSameFile } from "../same-file.ts";
import { didYouMean, oneOf } from "../showing.ts";

interface Unknown {
  at: NameSlot;
  name: string;
  kinds: readonly DeclarationKind[];
  /** A declaration of this name, but of another kind. */
  other: string | undefined;
  /** Words of a declared device whose lines cannot be read. */
  unread?: readonly string[];
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
    if (declaration.kind === "recipe") yield* unreadDevices(declaration, lookup, chunk);
    for (const { name, kinds } of namesUsed(declaration)) {
      const known = kinds.some((kind) => {
        if (kind === "recipe" || kind === "lots") return lookup.names(kind).includes(name.name);
        return lookup.find(kind, name.name) !== undefined;
      });
      if (!known) yield { at: name, name: name.name, kinds, other: lookup.any(name.name)?.kind };
    }
  },
  say(found, { lookup }) {
    if (found.unread) {
      const what = found.unread.join(", ");
      return {
        text: `What device ${found.name} says of ${what} cannot be read, so what rests on it was not checked. Mend it there.`,
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

/** Where the device stands in another file, whoever checks the recipe alone would take it for clean. */
function* unreadDevices(recipe: Recipe, lookup: Lookup, chunk: Chunk): Iterable<Unknown> {
  for (const { item } of recipe.materials) {
    const device = lookup.find("stock", item.name) ? undefined : lookup.find("device", item.name);
    if (!device || isInSameFile(device.chunk, chunk)) continue;
    // Nothing is computed from a note.
    const words = [...device.facts.unread].filter((word) => nearNames(word, ["note"]).length === 0);
    const unread = words.map((word) => (word === "" ? "a line" : `\`${word}\``));
    if (unread.length > 0) yield { at: item, name: item.name, kinds: ["device"], other: undefined, unread };
  }
}

function near(found: Unknown, lookup: LibraryContext["lookup"]): string[] {
  return nearNames(
    found.name,
    found.kinds.flatMap((kind) => lookup.names(kind)),
  );
}
