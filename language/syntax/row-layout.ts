/** The canonical inside of one row: columns and blanks. Tokens and comments stay letter by letter. */
import type { Row } from "./rows.ts";
import { lex } from "./tokens.ts";
import type { Token } from "./tree.ts";
import { valueColumns } from "./words.ts";

const wide = "  ";

/** The text of a row without its indentation; as written where it is not understood. */
export function rowText(text: string, row: Row): string {
  const written = text.slice(row.start, row.end);
  if (row.keepsInside) return written;
  const laid = laidOut(text, row);
  // A blank less can join two tokens (`5  million units`); such a row stays as it is and gets its finding.
  return laid === written || readsTheSame(laid, row) ? laid : written;
}

function laidOut(text: string, row: Row): string {
  const { tokens } = row;
  let out = "";
  for (let i = 0; i < tokens.length; i++) {
    const before = tokens[i - 1];
    if (before) out += i === 1 ? afterFirst(row, before, tokens[i]!) : between(row, before, tokens[i]!);
    out += tokens[i]!.text;
  }
  return row.comment ? `${out}${wide}${text.slice(row.comment.start, row.comment.end)}` : out;
}

/** Blanks after the first word: up to the value column of the block, or one where the row is no fact. */
function afterFirst(row: Row, first: Token, second: Token): string {
  const column = valueColumns[row.block];
  const isFact = row.role === "statement" && column !== undefined && first.kind === "word";
  if (!isFact || second.kind === "comma" || first.text.toLowerCase() === "deviation")
    return between(row, first, second);
  return " ".repeat(Math.max(wide.length, column - first.text.length));
}

const setApartInFacts = new Set(["source", "when"]);
const setApartInSteps = new Set(["giving", "leaving"]);

function between(row: Row, before: Token, token: Token): string {
  if (token.kind === "comma") return "";
  if (token.kind === "equals") return wide;
  const touches = before.end === token.start;
  const isFigure = before.kind === "number" || before.kind === "ratio";
  // `10mg` and `2x bag` have findings of their own, whose fix sets the blank.
  if (touches && isFigure) return "";
  // `mag½nesium {` would become the head of a declaration by a blank that nobody wrote.
  if (touches && before.kind === "word" && token.kind === "number") return "";
  if (token.kind === "word" && row.role !== "head") {
    const apart = row.block === "steps" ? setApartInSteps : setApartInFacts;
    if (apart.has(token.text)) return wide;
    if (row.block === "lots" && token.text === "expires") return wide;
  }
  return " ";
}

function readsTheSame(laid: string, row: Row): boolean {
  const { tokens, comments } = lex(laid);
  if (tokens.length !== row.tokens.length || comments.length !== (row.comment ? 1 : 0)) return false;
  return tokens.every((token, i) => token.image === row.tokens[i]!.text);
}
