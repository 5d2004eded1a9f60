/**
 * What may be written at a place, likeliest first: the forms say what fits, the library says what is usual. Nothing here knows a
 * list of its own. Offsets are in the file.
 */
import type { Library } from "../library.ts";
import type { Asked, Suggestion } from "./completion/asked.ts";
import { atHead } from "./completion/at-head.ts";
import { inFacts } from "./completion/in-facts.ts";
import { inMaterials } from "./completion/in-materials.ts";
import { inSteps } from "./completion/in-steps.ts";
import { blockWordOf, type PlaceInFile, placeAt, typedRow } from "./place.ts";
import { peersOf } from "./vocabulary.ts";

/** @param stem the file's name without folder and ending, offered as the name of what is declared */
export function completionsAt(library: Library, file: string, offset: number, stem: string): Suggestion[] {
  const place = placeAt(library, file, offset) ?? emptyPlace(file);
  if (place.inComment) return [];
  const row = typedRow(place);
  if (insideText(place)) return [];
  const recipe = place.declaration?.kind === "recipe" ? place.declaration : undefined;
  const inner = blockWordOf(place.blocks.at(-1));
  const block = inner === "only" ? "steps" : inner;
  const kind = place.declaration?.kind ?? "recipe";
  const peers = peersOf(library, place.declaration, kind);
  const asked: Asked = { library, place, row, recipe, block, peers, found: new Map() };
  if (place.headOf || place.blocks.length === 0) atHead(asked, stem);
  else if (block === "steps") inSteps(asked);
  else if (block === "materials") inMaterials(asked);
  else inFacts(asked);
  const base = place.chunk.base;
  return [...asked.found.values()].map((s) => ({ ...s, start: base + s.start, end: base + s.end }));
}

function emptyPlace(file: string): PlaceInFile {
  const reading = {
    tree: { text: "", entries: [], comments: [], problems: [] },
    declarations: [],
    problems: [],
    blocks: [],
  };
  const chunk = { text: "", file, base: 0, lone: undefined, reading };
  return {
    file,
    chunk,
    at: 0,
    declaration: undefined,
    blocks: [],
    line: undefined,
    headOf: undefined,
    inComment: false,
  };
}

function insideText(place: PlaceInFile): boolean {
  return (place.line?.tokens ?? []).some(
    (t) =>
      (t.kind === "string" && t.start < place.at && place.at < t.end) ||
      (t.fault === "string-not-closed" && t.start < place.at),
  );
}
