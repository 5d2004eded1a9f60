/**
 * The language as a reference: every block, the lines that may stand in it and what each means. All of it is taken from the forms
 * and tables by which recipes are read, so that it says neither more nor less than what is understood.
 */
import { claimForms } from "../bench/plan.ts";
import { allVerbs } from "../bench/verbs/index.ts";
import { type FactDef, trailingForms } from "../model/facts.ts";
import { showForm } from "../model/form-shown.ts";
import { factTables } from "../model/read-chunk.ts";
import { deviationForm, materialForm, onlyForm } from "../model/read-recipe.ts";
import { blocksIn, headName, outside } from "../syntax/blocks.ts";
import { headWords } from "./head-words.ts";

/** A line of a block. */
export interface LineWords {
  /** Its first word; empty where the line begins with a name of the author's. */
  word: string;
  /** The whole line as it is written, with capitals for what the author puts in. */
  form: string;
  /** What it means, in sentences: whether the block needs it, may hold it again, and asks for a source. */
  meaning: string;
  /** What the sheet prints beside a step, where a verb has such cautions. */
  cautions: readonly string[];
}

export interface BlockWords {
  /** `drug`, `order`, `steps` … */
  word: string;
  /** How its first line is written: `drug NAME {`. */
  head: string;
  about: string;
  /** The kind of block it stands in; undefined for a declaration. */
  within: string | undefined;
  lines: readonly LineWords[];
  /** Blocks that may stand in it, as `reconstitute { … }`, and what each is for. */
  blocks: readonly { form: string; about: string }[];
}

/** Blocks in the order in which they are read about: each declaration, behind it what may stand in it. */
export function languageBlocks(): readonly BlockWords[] {
  return blocksOf(outside, undefined, new Set());
}

function blocksOf(kind: string, within: string | undefined, seen: Set<string>): BlockWords[] {
  return blocksIn(kind).flatMap((word) => {
    if (seen.has(word)) return [];
    seen.add(word);
    return [
      { word, head: headOf(word), about: aboutOf(word), within, lines: linesOf(word), blocks: innerOf(word) },
      ...blocksOf(word, word, seen),
    ];
  });
}

function innerOf(kind: string): BlockWords["blocks"] {
  return blocksIn(kind).map((word) => ({ form: `${headOf(word)} … }`, about: aboutOf(word) }));
}

function aboutOf(word: string): string {
  return headWords[word] ?? "";
}

function headOf(word: string): string {
  if (word === "only") return `${showForm(onlyForm.text)} {`;
  const behind = { word: " NAME", string: ' "TEXT"', "": "" }[headName(word)];
  return `${word}${behind} {`;
}

function linesOf(block: string): LineWords[] {
  if (block === "materials") {
    const meaning = "A name for use in the steps, how many of it, and the stock or device that it is.";
    return [{ word: "", form: showForm(materialForm.text), meaning, cautions: [] }];
  }
  if (block === "steps") {
    return allVerbs.map(({ word, form, about, cautions }) => ({
      word,
      form: written(word, form.text),
      meaning: about,
      cautions: cautions.map((caution) => caution.text),
    }));
  }
  if (block === "only") {
    return [{ word: "", form: "STEP", meaning: "A step as in `steps`.", cautions: [] }];
  }
  const facts = Object.entries(factTables[block] ?? {}).map(([word, def]) => ofFact(word, def));
  return block === "recipe" ? [...facts, deviation] : facts;
}

function ofFact(word: string, { form, about, required, many, sourced }: FactDef): LineWords {
  const sentences = [required && "Needed.", about, many && "May stand again.", sourced && "Names its source."];
  const meaning = sentences.filter((sentence) => sentence !== false).join(" ");
  return { word, form: written(word, form.text), meaning, cautions: [] };
}

const deviation: LineWords = {
  word: "deviation",
  form: [deviationForm, trailingForms.because, trailingForms.by, trailingForms.until]
    .map((f) => showForm(f.text))
    .join(" "),
  meaning:
    "Silences one finding at one place, with the reason, the role that answers for it, and the day on which it ends.",
  cautions: [],
};

/** Words that may follow on a line or on the next, and what each says. */
export const trailingAbout: readonly { form: string; about: string }[] = (
  [
    ["source", "Who says so: a reference of the library, and the place in it."],
    ["when", "For which patients or doses of a range the line holds."],
    ["because", "The reason, in a line of `site` and with a deviation."],
    ["by", "The role that answers for it, likewise."],
    ["until", "The day on which it ends, likewise."],
  ] as const
).map(([word, about]) => ({ form: showForm(trailingForms[word].text), about }));

/** What the author expects of a step, behind it. */
export const claimsAbout: readonly { form: string; about: string }[] = [
  { form: `= ${showForm(claimForms.moves.text)}`, about: "The volume that the step must move." },
  { form: `giving ${showForm(claimForms.giving.text)}`, about: "The concentration that the step must give." },
  {
    form: `leaving ${showForm(claimForms.leaving.text)}`,
    about: "What must be left in the container that was drawn from.",
  },
];

/** What the words in capitals stand for. */
export const placeholders: readonly { word: string; about: string }[] = [
  { word: "NAME", about: "a name; words such as DRUG or CONTAINER in capitals are names too" },
  { word: "NAMES", about: "one name, or several with commas between" },
  {
    word: "QUANTITY",
    about: "a number with its unit: `4 g`, `500 mg/mL`, `10 mL`; where an order has a range, `40 kg to 120 kg`",
  },
  {
    word: "LIMITS",
    about:
      "`from 1 mg/mL up to 20 mg/mL`; `from` and `up to` include the figure, `above` and `below` do not; `any` has no limit",
  },
  { word: "NUMBER", about: "a number without a unit" },
  { word: '"TEXT"', about: "words between quotation marks" },
  { word: "DATE", about: "`2026-11-25`" },
  { word: "CONDITION", about: "for whom or for which dose: `weight from 40 kg below 50 kg`, `dose above 1.5 g`" },
  {
    word: 'REFERENCE "PLACE"',
    about: 'a published source of the library, and where in it: `kestrel-guide "fluids"`; either may be left out',
  },
  { word: "[ … ]", about: "may be left out" },
  { word: "( … | … ), … / …", about: "one of several" },
];

function written(word: string, formText: string): string {
  return formText === "" ? word : `${word} ${showForm(formText)}`;
}
