/** What slips into a line from plain writing: articles, `and`, a full stop, a colon, numbers in front, one preposition for another. */
import type { Problem } from "../../model/facts.ts";
import type { Line, Token } from "../../syntax/tree.ts";
import { word } from "../problems.ts";
import { oneOf } from "../showing.ts";
import { misfitAt, wordsOfForm } from "./misfit.ts";
import { expectedWords, nearWordsAt } from "./near-words.ts";
import type { OrderForm } from "./order-forms.ts";

interface Place {
  tokens: readonly Token[];
  /** Index of the token that does not fit. */
  at: number;
  form: string;
  /** Words of which one belongs there. */
  expected: readonly string[];
}

/** Undefined where the line shows no such slip. */
export function plainForm(problem: Problem, line: Line | undefined): OrderForm | undefined {
  const at = line ? misfitAt(problem, line) : -1;
  if (!line || at < 0) return undefined;
  const place: Place = { tokens: line.tokens, at, form: word(problem, "form"), expected: expectedWords(problem) };
  for (const slip of [
    article,
    each,
    strayMark,
    fullStop,
    and,
    list,
    drawUp,
    preposition,
    shortened,
    misspelt,
    missing,
    unquoted,
    counted,
  ]) {
    const form = slip(place);
    if (form) return form;
  }
  return undefined;
}

/** `disinfect the mag`: the article was taken for the name. */
function article({ tokens, at }: Place): OrderForm | undefined {
  const [before, now] = [tokens[at - 1], tokens[at]!];
  if (!before || !/^(?:the|a|an)$/.test(before.text) || now.kind !== "word") return undefined;
  return without(`A name stands alone. Leave \`${before.text}\` out.`, before.start, now.start);
}

/** `label each syringe`, `draw 9 mL from saline into each syringe`: `each` was taken for the name. */
function each({ tokens, at, form }: Place): OrderForm | undefined {
  const [into, before, now, next] = [tokens[at - 2], tokens[at - 1], tokens[at]!, tokens[at + 1]];
  if (!before || !/^(?:each|every|all|both)$/.test(before.text)) return undefined;
  const name = now.text === "of" ? next : now;
  if (name?.kind !== "word") return undefined;
  if (into && form.includes(`${into.text} [each of] `)) {
    const text = `each of ${name.text}`;
    return { text: `Write \`${text}\`.`, instead: { at: { start: before.start, end: name.end }, text } };
  }
  const text = `\`${name.text}\` alone means all of them here. Leave \`${now.text === "of" ? `${before.text} of` : before.text}\` out.`;
  return without(text, before.start, name.start);
}

/** `mag: magnesium-vial`, `- mag`, `mag = …`. */
function strayMark({ tokens, at }: Place): OrderForm | undefined {
  const [now, next] = [tokens[at]!, tokens[at + 1]];
  if (at > 1 || !/^(?:[:=*•–-]|->)$/.test(now.text) || !next) return undefined;
  return without(
    `Nothing stands between or before the words of a line. Leave \`${now.text}\` out.`,
    now.start,
    next.start,
  );
}

/** `disinfect mag.` */
function fullStop({ tokens, at }: Place): OrderForm | undefined {
  const { text, start, end } = tokens[at]!;
  if (at !== tokens.length - 1) return undefined;
  if (text === "." && at > 0) return without("A line ends without a full stop. Leave it out.", start, end);
  if (!/^[a-z][\w-]*\.$/i.test(text)) return undefined;
  const name = text.slice(0, -1);
  return { text: `A line ends without a full stop. Write \`${name}\`.`, instead: { at: { start, end }, text: name } };
}

/** `disinfect mag and bag`, where several may stand. */
function and({ tokens, at, form }: Place): OrderForm | undefined {
  const [before, now, next] = [tokens[at - 1], tokens[at]!, tokens[at + 1]];
  if (!/^(?:and|&)$/.test(now.text) || before?.kind !== "word" || next?.kind !== "word") return undefined;
  if (!/\b(?:THINGS|NAMES|VIALS)\b/.test(form)) return undefined;
  return { text: "Between names stands a comma.", instead: { at: { start: before.end, end: next.start }, text: ", " } };
}

/** `compatible water-for-injection, glucose-5`, where a line names one. */
function list({ tokens, at, form }: Place): OrderForm | undefined {
  if (!/^(?:,|and|&|;)$/.test(tokens[at]!.text) || tokens[at - 1]?.kind !== "word" || tokens[at + 1]?.kind !== "word")
    return undefined;
  const own = tokens[0]!.text;
  return /\b(?:THINGS|NAMES|VIALS)\b/.test(form)
    ? undefined
    : { text: `A line names one. Write one, or begin a line with \`${own}\` for each where several may stand.` };
}

function drawUp({ tokens, at }: Place): OrderForm | undefined {
  const [verb, now, next] = [tokens[0]!, tokens[at]!, tokens[at + 1]];
  if (verb.text !== "draw" || now.text !== "up" || at !== 1 || !next) return undefined;
  return without("The verb is `draw`. Leave `up` out.", now.start, next.start);
}

/** `inject syringe to bag`; not where the word that belongs there comes later. */
function preposition({ tokens, at, expected }: Place): OrderForm | undefined {
  const now = tokens[at]!;
  const meant = alike.get(now.text)?.filter((each) => expected.includes(each)) ?? [];
  const [own, ...others] = meant;
  if (own === undefined || others.length > 0 || tokens.slice(at).some(({ text }) => text === own)) return undefined;
  return { text: `Write \`${own}\`.`, instead: { at: { start: now.start, end: now.end }, text: own } };
}

const alike: ReadonlyMap<string, readonly string[]> = new Map([
  ["to", ["into"]],
  ["in", ["into"]],
  ["into", ["to"]],
  ["onto", ["to"]],
  ["on", ["to"]],
  ["with", ["using"]],
  ["by", ["using"]],
  ["off", ["from"]],
]);

/** `exp` for `expires`. */
function shortened({ tokens, at, expected }: Place): OrderForm | undefined {
  const [own, ...others] = expected;
  const { text, start, end } = tokens[at]!;
  if (own === undefined || others.length > 0 || text.length < 3 || text === own) return undefined;
  const isShort = own.startsWith(text.replace(/\.$/, ""));
  return isShort ? { text: `Write \`${own}\`.`, instead: { at: { start, end }, text: own } } : undefined;
}

/** `frm mag`, `at equal pressue`. */
function misspelt({ tokens, at, expected }: Place): OrderForm | undefined {
  const near = nearWordsAt(tokens, at, expected);
  const [own, ...others] = near;
  if (own === undefined) return undefined;
  if (others.length > 0) return { text: `Did you mean ${oneOf(near.map((n) => `\`${n.word}\``))}?` };
  return { text: `Write \`${own.word}\`.`, instead: { at: own.at, text: own.word } };
}

/** `40 mL water-for-injection`: one word alone may stand there, and what stands there goes on behind it. */
function missing({ tokens, at, expected, form }: Place): OrderForm | undefined {
  const [own, ...others] = expected;
  const now = tokens[at]!;
  const isLiteral = wordsOfForm(form).includes(now.text);
  if (own === undefined || others.length > 0 || !/^[a-z]+$/.test(own) || now.kind !== "word" || isLiteral)
    return undefined;
  const next = tokens[at + 1]?.text;
  const goesOn = next === undefined || wordsOfForm(form).includes(next);
  if (!goesOn || smallWord.test(now.text) || tokens.slice(at).some(({ text }) => text === own)) return undefined;
  const text = `${own} ${now.text}`;
  return {
    text: `\`${own}\` is missing before it. Write \`${text}\`.`,
    instead: { at: { start: now.start, end: now.end }, text },
  };
}

const smallWord =
  /^(?:and|as|at|by|down|for|from|gently|in|into|of|off|on|onto|or|out|over|per|slowly|then|through|to|up|via|well|with)$/;

/** `lot M1 expires …`. */
function unquoted({ tokens, at, form }: Place): OrderForm | undefined {
  const now = tokens[at]!;
  const next = tokens[at + 1]?.text;
  const isAlone = next === undefined || wordsOfForm(form).includes(next);
  const onlyText = /^\S+ "TEXT"$/.test(form) && at === 1;
  if (onlyText && !isAlone && tokens.every((t) => !t.text.includes('"'))) return unquotedLine(tokens);
  if (!/^\S+ (?:\S+ )?"TEXT"/.test(form) || !isAlone || !/^(?:word|number)$/.test(now.kind) || now.text.includes('"'))
    return undefined;
  const text = `"${now.text}"`;
  return {
    text: `Text stands between quotation marks. Write \`${text}\`.`,
    instead: { at: { start: now.start, end: now.end }, text },
  };
}

/** `appearance clear and colourless`. */
function unquotedLine(tokens: readonly Token[]): OrderForm {
  const words = tokens.slice(1);
  const text = `"${words
    .map(({ text }) => text)
    .join(" ")
    .replace(/ ([,.;])/g, "$1")}"`;
  return {
    text: `Text stands between quotation marks. Write \`${text}\`.`,
    instead: { at: { start: words[0]!.start, end: words.at(-1)!.end }, text },
  };
}

/** `mag  magnesium-vial x 2`, and a device by its size. */
function counted({ tokens, at, form }: Place): OrderForm | undefined {
  if (!form.includes("[NUMBER x] ITEM")) return undefined;
  const [before, now, next] = [tokens[at - 1], tokens[at]!, tokens[at + 1]];
  if (/^[x×]$/i.test(now.text) && before?.kind === "word" && next?.kind === "number") {
    const text = `${next.text} x ${before.text}`;
    return {
      text: `How many stands in front. Write \`${text}\`.`,
      instead: { at: { start: before.start, end: next.end }, text },
    };
  }
  const isSize = now.kind === "number" || tokens[at - 1]?.kind === "number";
  if (!isSize) return undefined;
  return {
    text: "What stands there is a product or device by its declared name, such as `syringe-10mL`; a count in front is written `2 x`.",
  };
}

function without(text: string, start: number, end: number): OrderForm {
  return { text, instead: { at: { start, end }, text: "" } };
}
