import type { DeclarationKind, Place } from "../../model/declaration.ts";
import type { NameSlot } from "../../model/slots.ts";
import { libraryCheck } from "../check.ts";
import type { LibraryContext } from "../context.ts";
import { example, standardAnd } from "../example.ts";

interface Alike {
  at: NameSlot;
  name: string;
  other: string;
  place: Place | NameSlot | undefined;
}

/** Kinds whose names are typed by hand in recipes. Names of recipes stand in no step. */
const kinds: readonly DeclarationKind[] = ["drug", "fluid", "stock", "device"];

export const namesLookAlike = libraryCheck<Alike>({
  name: "names-look-alike",
  family: "structure",
  severity: "warning",
  title: "Two names that differ only in dots, hyphens or capitals",
  why: "sodium-chloride-0.9 and sodium-chloride-09 are read as one name, and typed for each other.",
  source: "common practice",
  bad: standardAnd(`fluid sodium-chloride-09 {
  source      guide "fluids"
  name        "sodium chloride 0.9 % w/v, glass"
  contains    sodium 154 mmol/L
  contains    chloride 154 mmol/L
  osmolarity  308 mOsm/L
  use         injection
}
`),
  good: example(),
  *find(context) {
    yield* inLibrary(context);
    const { declaration } = context;
    if (declaration.kind === "recipe") yield* inMaterials(declaration.materials.map((m) => m.name));
  },
  say: ({ name, other, place }) => ({
    text: `\`${name}\` and \`${other}\` differ only in dots, hyphens or capitals, so one is easily written for the other. Give one of them a name that is heard to differ.`,
    related: place ? [{ at: place, text: "the other one" }] : [],
  }),
});

/**
 * Asked by spelling, not by walking all names: a library has thousands, and each declaration asks. The finding stands at the
 * name from which the other is made by leaving marks out.
 */
function* inLibrary({ declaration, lookup }: LibraryContext): Iterable<Alike> {
  const { kind, name } = declaration;
  if (!kinds.includes(kind)) return;
  for (const other of plainerSpellings(name.name)) {
    const found = lookup.any(other);
    if (!found || !kinds.includes(found.kind)) continue;
    yield { at: name, name: name.name, other, place: { ...found.name, chunk: found.chunk } };
    return;
  }
}

/** In small letters, without its dots, its hyphens, both, or any one of them. */
function plainerSpellings(name: string): Set<string> {
  const small = name.toLowerCase();
  const spellings = new Set([small, small.replaceAll(".", ""), small.replaceAll("-", ""), squeeze(name)]);
  for (let at = 0; at < small.length && spellings.size < 20; at++) {
    if (/[-.]/.test(small[at]!)) spellings.add(small.slice(0, at) + small.slice(at + 1));
  }
  spellings.delete(name);
  return spellings;
}

function* inMaterials(names: readonly NameSlot[]): Iterable<Alike> {
  const seen = new Map<string, NameSlot>();
  for (const at of names) {
    const key = squeeze(at.name);
    const first = seen.get(key);
    if (!first) seen.set(key, at);
    else if (first.name !== at.name) yield { at, name: at.name, other: first.name, place: first };
  }
}

function squeeze(name: string): string {
  return name.toLowerCase().replace(/[-.]/g, "");
}
