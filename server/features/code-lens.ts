/** Lines above declarations: how many findings a recipe has, how many recipes use a stock or drug. Counted when they come into sight. */
import type { CodeLens, CodeLensParams, Command } from "vscode-languageserver-protocol";
import { occurrenceAt, recipesUsing, sameName } from "../../language/answers/occurrences.ts";
import type { Answer } from "../serving.ts";
import { inFile, locationOf } from "./at.ts";

interface Kept {
  uri: string;
  name: string;
  what: "findings" | "uses";
}

const counted = new Set(["stock", "drug", "fluid", "device", "reference", "bands"]);

export const codeLenses: Answer<CodeLensParams, CodeLens[] | null> = (serving, params) => {
  const at = inFile(serving, params.textDocument);
  if (!at) return null;
  const lenses: CodeLens[] = [];
  for (const chunk of at.library.chunks(at.key)) {
    for (const d of chunk.reading.declarations) {
      const what = d.kind === "recipe" ? "findings" : counted.has(d.kind) ? "uses" : undefined;
      if (!what) continue;
      const range = at.document.range({ start: chunk.base + d.name.start, end: chunk.base + d.name.end });
      lenses.push({ range, data: { uri: params.textDocument.uri, name: d.name.name, what } satisfies Kept });
    }
  }
  return lenses;
};

export const codeLensResolve: Answer<CodeLens, CodeLens> = (serving, lens) => {
  const { uri, name, what } = (lens.data ?? {}) as Partial<Kept>;
  const at = typeof uri === "string" ? inFile(serving, { uri }) : undefined;
  if (!at || typeof name !== "string") return { range: lens.range, command: { title: "", command: "" } };
  if (what === "findings") {
    const subject = `recipe ${name}`;
    const count = at.library.findings(at.key).filter((f) => f.subject === subject && !f.silenced).length;
    return { range: lens.range, command: { title: times(count, "finding"), command: "" } };
  }
  const found = occurrenceAt(at.library, at.key, at.document.offset(lens.range.start));
  const uses = found ? sameName(at.library, found).filter((o) => !o.declares) : [];
  const recipes = recipesUsing(at.library, name).length;
  const title = `used by ${times(recipes, "recipe")}, named in ${times(uses.length, "place")}`;
  const locations = uses.flatMap((o) => locationOf(serving, at.library, o.at) ?? []);
  // The editor's side shows the places; an editor without that command shows the line alone.
  const command: Command = serving.client.showsUses
    ? { title, command: "misce.showUses", arguments: [at.document.uri, lens.range.start, locations] }
    : { title, command: "" };
  return { range: lens.range, command };
};

function times(count: number, word: string): string {
  return `${count === 0 ? "no" : count} ${word}${count === 1 ? "" : "s"}`;
}
