/** A declaration in a few lines of Markdown: its facts with their sources, and for stock the lots with their dates. */
import type { Library } from "../library.ts";
import type { Declaration } from "../model/declaration.ts";
import type { Fact } from "../model/facts.ts";

/** A fact's own words, on one line. */
export function factText(declaration: Declaration, fact: Fact): string {
  return declaration.chunk.text.slice(fact.start, fact.end).replace(/\s+/g, " ");
}

const mostFacts = 14;

export function describe(library: Library, declaration: Declaration): string {
  const head = declaration.kind === "site" ? "site" : `${declaration.kind} ${declaration.name.name}`;
  const isBuiltIn = library.spanOf({ ...declaration.head, chunk: declaration.chunk }) === undefined;
  const facts = [...declaration.facts.every()].sort((a, b) => a.start - b.start);
  const lines = facts.slice(0, mostFacts).map((fact) => `- ${plain(factText(declaration, fact))}${inherited(fact)}`);
  if (facts.length > mostFacts) lines.push(`- … and ${facts.length - mostFacts} more`);
  const parts = [`**${head}**${isBuiltIn ? " (built in)" : ""}`, lines.join("\n")];
  if (declaration.kind === "stock") parts.push(lotsText(library, declaration.name.name));
  if (declaration.kind === "reference") parts.push("");
  return parts.filter((p) => p !== "").join("\n\n");
}

/** A source that stands at the head of the block speaks for the fact too. */
function inherited(fact: Fact): string {
  const source = fact.source;
  if (!source || fact.word === "source" || (source.start >= fact.start && source.end <= fact.end)) return "";
  const where = source.where ? ` "${source.where.text}"` : "";
  return ` — source ${source.reference?.name ?? ""}${where}`;
}

export function lotsText(library: Library, stock: string): string {
  const { lookup, asOf } = library.surroundings();
  const lots = [...lookup.lots(stock)].sort((a, b) => ((a.expires?.text ?? "~") < (b.expires?.text ?? "~") ? -1 : 1));
  if (lots.length === 0) return "";
  const today = [asOf.year, asOf.month, asOf.day].map((n) => String(n).padStart(2, "0")).join("-");
  const shown = lots
    .slice(0, 6)
    .map((lot) => `- lot "${lot.lot}" expires ${lot.expires?.text ?? "on a date that cannot be read"}`);
  if (lots.length > 6) shown.push(`- … and ${lots.length - 6} more`);
  return `Lots (judged on ${today}):\n${shown.join("\n")}`;
}

/** Text as it stands, for Markdown: signs that would be read as layout are kept as signs. */
export function plain(text: string): string {
  return text.replace(/[\\`*_{}[\]<>#|]/g, "\\$&");
}
