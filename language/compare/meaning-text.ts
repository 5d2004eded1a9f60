/**
 * The meaning of a file as text, for git's textconv: one statement a line, facts in a fixed order, quantities in the unit in which a
 * pharmacist would say them, comments and layout gone. Texts that mean the same print alike; so a diff of two shows nothing else.
 */
import { safetyNotice } from "../../shared/report.ts";
import type { Declaration } from "../model/declaration.ts";
import { readChunk } from "../model/read-chunk.ts";
import { Exact } from "../quantities/exact.ts";
import { inBase, preferredUnit, showQuantity } from "../quantities/quantity.ts";
import { findUnit } from "../quantities/unit.ts";
import { splitChunks } from "../syntax/chunks.ts";
import type { Token } from "../syntax/tree.ts";
import { singleBlanks } from "./canonical.ts";
import { meaningOf, readingOf, type Statement } from "./meaning.ts";

export function meaningText(text: string): string {
  const blocks: string[] = [];
  const loose: string[] = [];
  for (const { text: part } of splitChunks(text)) {
    const reading = readChunk({ text: part });
    for (const declaration of reading.declarations) blocks.push(declarationText(declaration));
    // What is no declaration is not understood, and is shown as it stands rather than hidden.
    for (const problem of reading.problems) {
      if (problem.name === "line-outside-declaration") loose.push(singleBlanks(part.slice(problem.start, problem.end)));
      if (problem.name === "unknown-declaration" || problem.name === "declaration-without-name")
        loose.push(singleBlanks(part));
    }
    for (const block of reading.blocks) {
      const isTold = reading.declarations.some((d) => d.head.start === block.head.start);
      // Without its head or brace it declares nothing.
      if (!isTold && (block.readAs !== undefined || block.open.text === ""))
        loose.push(singleBlanks(part.slice(block.start, block.end)));
    }
    if (reading.tree.problems[0]?.name === "text-too-long") loose.push(part);
  }
  const unread = loose.map((line) => `not read: ${line}\n`).join("");
  return `${blocks.sort().join("\n")}${unread}\n# ${safetyNotice}\n`;
}

function declarationText(declaration: Declaration): string {
  const { kind, name, facts, steps } = meaningOf(declaration);
  const say = (s: Statement) => statementText(declaration, s);
  // That a block is there is said by its facts; only one without any needs a line.
  const told = facts.filter((f) => f.word !== "" || !f.isRead || !facts.some((o) => o !== f && o.block === f.block));
  const lines = told.map((f) => `  ${f.block === "" ? "" : `${f.block}: `}${say(f)}`).sort();
  const stepLines = steps.map((s) => `  steps: ${say(s)}`);
  return `${kind}${kind === "site" ? "" : ` ${name}`}\n${[...lines, ...stepLines].map((l) => `${l}\n`).join("")}`;
}

/** The statement with every quantity in its usual unit. */
function statementText({ chunk }: Declaration, { start, end, shown, isRead }: Statement): string {
  const tokens = isRead ? tokensBetween(chunk, start, end) : undefined;
  if (!tokens) return isRead ? shown : `not read: ${shown}`;
  const words: string[] = [];
  for (let i = 0; i < tokens.length; i++) {
    const token = tokens[i]!;
    const next = tokens[i + 1];
    if (token.kind === "comma") words.push(`${words.pop() ?? ""},`);
    else if (token.kind === "number" && next?.kind === "unit") {
      words.push(usual(token.text, next.text));
      i++;
    } else words.push(token.kind === "word" || token.kind === "number" ? plainNumber(token) : token.text);
  }
  return words.join(" ");
}

function tokensBetween(chunk: Declaration["chunk"], start: number, end: number): Token[] | undefined {
  const found: Token[] = [];
  const walk = (entries: ReturnType<typeof readingOf>["tree"]["entries"]): void => {
    for (const entry of entries) {
      if (entry.kind === "block") {
        found.push(...entry.head.tokens.filter((t) => t.start >= start && t.end <= end));
        walk(entry.body);
      } else if (entry.start === start) found.push(...entry.tokens.filter((t) => t.kind !== "close"));
    }
  };
  walk(readingOf(chunk).tree.entries);
  return found.length > 0 ? found : undefined;
}

function plainNumber(token: Token): string {
  if (token.kind !== "number") return token.text;
  const value = exactOf(token.text);
  return value ? value.toText() : token.text;
}

/** Only plain decimals; what has two readings stays as it is written. */
function exactOf(text: string): Exact | undefined {
  const bare = /^\d{1,3}(,\d{3})+(\.\d+)?$/.test(text) ? text.replaceAll(",", "") : text;
  return /^\d+(\.\d+)?$/.test(bare) ? Exact.of(bare) : undefined;
}

function usual(number: string, spelling: string): string {
  const value = exactOf(number);
  const { unit } = findUnit(spelling);
  if (!value || !unit) return `${number} ${spelling}`;
  const quantity = { value, unit };
  const handy = preferredUnit(quantity);
  const shown = handy.value.terminates() ? handy : quantity;
  // Days and hours are never interchanged, and a unit without a ladder stays: then the figure alone is made plain.
  return inBase(shown).equals(inBase(quantity)) ? showQuantity(shown, 40) : `${number} ${spelling}`;
}
