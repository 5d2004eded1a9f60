/** A new name in every place of the old one, or the reason why not. */
import type { Library } from "../library.ts";
import type { Place } from "../model/declaration.ts";
import { edgeWords, glueWords } from "../syntax/words.ts";
import { meantBy, type Occurrence, sameName } from "./occurrences.ts";

export type RenameAnswer = { places: Place[] } | { refused: string };

const shape = /^[A-Za-z](?:-?(?:[A-Za-z]|\d(?:\.(?=\d))?))*$/;

/** Why this name cannot be renamed at all; undefined where it can. */
export function refusalToRename(library: Library, occurrence: Occurrence): string | undefined {
  if (occurrence.kinds.includes("check")) {
    return `\`${occurrence.name}\` is the name of a finding. Those are fixed, so that deviations keep their meaning.`;
  }
  if (occurrence.recipe) return undefined;
  const meant = meantBy(library, occurrence);
  if (meant.length === 0)
    return `\`${occurrence.name}\` is not declared in this library, so there is nothing to rename.`;
  if (meant.every((d) => library.spanOf({ ...d.head, chunk: d.chunk }) === undefined)) {
    return `\`${occurrence.name}\` is built in. Declare a device of your own under another name, and use that.`;
  }
  if (meant.length > 1) {
    return `\`${occurrence.name}\` is declared ${meant.length} times. Settle which one stays before renaming it.`;
  }
  return undefined;
}

export function renamed(library: Library, occurrence: Occurrence, name: string): RenameAnswer {
  const refused = refusalToRename(library, occurrence) ?? refusalOfName(library, occurrence, name);
  return refused === undefined ? { places: sameName(library, occurrence).map((o) => o.at) } : { refused };
}

function refusalOfName(library: Library, occurrence: Occurrence, name: string): string | undefined {
  if (!shape.test(name)) {
    return `\`${name}\` cannot be a name. Begin with a letter; use letters, digits and single hyphens, such as saline-bag-100.`;
  }
  if ([...glueWords, ...edgeWords].includes(name as never))
    return `\`${name}\` is a word of the language and cannot be a name.`;
  if (name === occurrence.name) return undefined;
  if (occurrence.recipe) {
    if (occurrence.recipe.materials.some((m) => m.name.name === name)) {
      return `\`${name}\` is already a material of this recipe. Two things under one name could be taken for each other.`;
    }
    return undefined;
  }
  const there = library.declared(name)[0];
  if (there) return `\`${name}\` is already the name of a ${there.kind} in this library. Choose another.`;
  return undefined;
}
