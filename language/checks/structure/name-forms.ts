/** Names that are written as people write them: in several words, between quotation marks. A name is one word here. */
import type { Problem } from "../../model/facts.ts";
import type { Line, Token } from "../../syntax/tree.ts";
import { factsByBlock } from "../../syntax/words.ts";
import { word } from "../problems.ts";
import { misfitAt, wordsOfForm } from "./misfit.ts";
import type { OrderForm } from "./order-forms.ts";

/** Placeholders of a form that no name fills. */
const notNames: ReadonlySet<string> = new Set(["QUANTITY", "LIMITS", "NUMBER", "TEXT", "DATE", "CONDITION"]);

/** Words that begin lines, such as `route`: no name is meant by them in the middle of one. */
const allWords: ReadonlySet<string> = new Set(Object.values(factsByBlock).flat());

/** Undefined where the line holds no such name. */
export function nameForm(problem: Problem, line: Line | undefined): OrderForm | undefined {
  const at = line ? misfitAt(problem, line) : -1;
  if (!line || at < 1) return undefined;
  return (
    choiceInWords(line.tokens, at, problem) ?? quoted(line.tokens[at]!, problem) ?? inWords(line.tokens, at, problem)
  );
}

/** `method add to bag`. */
function choiceInWords(tokens: readonly Token[], at: number, problem: Problem): OrderForm | undefined {
  const choices = [...word(problem, "expected").matchAll(/`([a-z-]+)`/g)].map(([, choice]) => choice!);
  for (let end = tokens.length; end > at + 1; end--) {
    const text = joined(tokens.slice(at, end));
    if (choices.includes(text)) return written(tokens[at]!.start, tokens[end - 1]!.end, text);
  }
  return undefined;
}

/** `diluent "sodium chloride 0.9 %"`. */
function quoted({ kind, text, start, end }: Token, problem: Problem): OrderForm | undefined {
  if (kind !== "string" || !/\ba name\b/.test(word(problem, "expected"))) return undefined;
  const name = asName(text.replace(/^"|"$/g, ""));
  return name === undefined ? undefined : written(start, end, name);
}

/** `drug magnesium sulfate`, `use-within 24 h at room temperature`. */
function inWords(tokens: readonly Token[], at: number, problem: Problem): OrderForm | undefined {
  const form = wordsOfForm(word(problem, "form"));
  const [own, ...others] = form;
  const hasName = others.some((each) => /^[A-Z]{2,}$/.test(each) && !notNames.has(each));
  const first = tokens[at - 1]!;
  if (at > 1 && hasName && allWords.has(first.text) && tokens[at]?.kind === "word" && first.text !== own)
    return {
      text: `What kind of thing it is, is known there. Leave \`${first.text}\` out.`,
      instead: { at: { start: first.start, end: tokens[at]!.start }, text: "" },
    };
  const isName = at > 1 && first.kind === "word" && first.text !== own && !form.includes(first.text);
  if (!hasName || !isName || tokens[at]?.kind !== "word" || form.includes(tokens[at]!.text)) return undefined;
  // `normal saline 100 mL`: a figure with its unit is no part of the name, a percentage is.
  const isMeasure = (i: number) => tokens[i]?.kind === "number" && /^[a-z]/i.test(tokens[i + 1]?.text ?? "");
  let end = at;
  while (tokens[end + 1] && !form.includes(tokens[end + 1]!.text) && !isMeasure(end + 1)) end++;
  const name = asName(textOf(tokens.slice(at - 1, end + 1)));
  return name === undefined ? undefined : written(first.start, tokens[end]!.end, name);
}

function written(start: number, end: number, name: string): OrderForm {
  return { text: `A name is one word. Write \`${name}\`.`, instead: { at: { start, end }, text: name } };
}

function textOf(tokens: readonly Token[]): string {
  return tokens.map(({ text }) => text).join(" ");
}

function joined(tokens: readonly Token[]): string {
  return tokens.map(({ text }) => text.toLowerCase()).join("-");
}

/** `sodium chloride 0.9 %` as `sodium-chloride-0.9`; undefined where other signs stand in it. */
function asName(text: string): string | undefined {
  const name = text
    .toLowerCase()
    .replace(/ ?%(?: w\/v)?$/, "")
    .trim()
    .replace(/ +/g, "-");
  return /^[a-z][a-z0-9]*(?:[-.][a-z0-9]+)*$/.test(name) ? name : undefined;
}
