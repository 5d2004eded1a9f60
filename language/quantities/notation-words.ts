/**
 * Error-prone words, symbols and drug abbreviations in free text and in names: one row each, with the id of the published
 * list (tests/reference/measuring/error-prone-notation.json), which carries the sources.
 */
import { Exact } from "./exact.ts";
import type { NotationFault } from "./reading.ts";

export interface WordRow {
  rule: string;
  /** With flag g. */
  pattern: RegExp;
  /** Safe form of a match; absent or undefined where the author alone knows what was meant. */
  replace?: (match: RegExpExecArray) => string | undefined;
  detail: string;
}

const romanValues: Readonly<Record<string, number>> = { i: 1, v: 5, x: 10, l: 50, c: 100 };
const smallUnits = "kg|g|mg|mcg|micrograms|nanograms|ng|L|mL|mmol|mEq|units?|tablets?|drops?|capsules?";

/** Undefined for what is no well-formed numeral (`iiii`, `vx`). */
function romanValue(text: string): number | undefined {
  if (!/^(?:c{0,3})(?:xc|xl|l?x{0,3})(?:ix|iv|v?i{0,3})$/i.test(text) || text === "") return undefined;
  const figures = [...text.toLowerCase()].map((letter) => romanValues[letter] ?? 0);
  return figures.reduce((sum, figure, at) => sum + (figure < (figures[at + 1] ?? 0) ? -figure : figure), 0);
}

/** `every 6 hours`, `every hour`. */
export function everyHours(count: string): string {
  return count === "1" ? "every hour" : `every ${count} hours`;
}

const timeOfFraction: Readonly<Record<string, (count: string) => string>> = {
  "7": (count) => `${count} ${count === "1" ? "day" : "days"}`,
  "12": (count) => `${count} ${count === "1" ? "month" : "months"}`,
  "24": everyHours,
  "52": (count) => `${count} ${count === "1" ? "week" : "weeks"}`,
};

const always = (text: string) => () => text;

/** Words and symbols of instructions. Look-behinds keep names such as `syringe-SC` out. */
export const errorProneWords: readonly WordRow[] = [
  {
    rule: "QD",
    pattern: /(?<![\w.-])(?:QD|qd|[Qq]\.[Dd]\.)(?![\w-])/g,
    replace: always("daily"),
    detail: "Mixed up with every other day and four times a day.",
  },
  {
    rule: "QOD",
    pattern: /(?<![\w.-])(?:QOD|qod|[Qq]\.[Oo]\.[Dd]\.)(?![\w-])/g,
    replace: always("every other day"),
    detail: "Mixed up with daily and four times a day.",
  },
  {
    rule: "SC-SQ",
    pattern: /(?<![\w-])(?:SC|SQ|sub q)(?![\w-])/g,
    replace: always("subcutaneously"),
    detail: "SC has been read as SL, SQ as 5 every.",
  },
  { rule: "IN", pattern: /(?<![\w-])IN(?![\w-])/g, replace: always("intranasal"), detail: "Read as IM or IV." },
  {
    rule: "IJ",
    pattern: /(?<![\w-])IJ(?![\w-])/g,
    replace: always("injection"),
    detail: "Read as IV or intrajugular.",
  },
  {
    rule: "HS",
    pattern: /(?<![\w-])(?:HS|hs)(?![\w-])/g,
    detail: "Means half-strength or bedtime. Write the one that is meant.",
  },
  {
    rule: "D-C",
    pattern: /(?<![\w-])D\/C(?![\w-])/g,
    detail: "Means discharge or discontinue. Write the one that is meant.",
  },
  { rule: "at-sign", pattern: /@/g, replace: always("at"), detail: "Read as 2." },
  {
    rule: "less-than-joined",
    pattern: /<(?=\d)/g,
    replace: always("less than "),
    detail: "Has been read as 4: <10 as 40.",
  },
  { rule: "greater-less", pattern: />\s*/g, replace: always("greater than "), detail: "The two signs are swapped." },
  { rule: "greater-less", pattern: /<(?!\d)\s*/g, replace: always("less than "), detail: "The two signs are swapped." },
  { rule: "ampersand", pattern: /&/g, replace: always("and"), detail: "Read as 2." },
  {
    rule: "plus",
    pattern: /(\d[\d.,]*)\s*\+\s*(\d[\d.,]*)\s*([A-Za-z%]+)/g,
    replace: (m) => `${m[1]} ${m[3]} and ${m[2]} ${m[3]}`,
    detail: "Read as another character, such as 4.",
  },
  {
    rule: "plus",
    pattern: /(?<=[^\d\s]\s*)\+/g,
    replace: always("and"),
    detail: "Read as another character, such as 4.",
  },
  {
    rule: "degree-hour",
    pattern: /(?<![\w])[qQ](\d+)\s?[°º]/g,
    replace: (m) => everyHours(m[1] ?? ""),
    detail: "The degree sign reads as zero.",
  },
  {
    rule: "half-tablet",
    pattern: /(?<![\w/.])(\d{1,2}\/\d{1,2})(?= (?:tablet|capsule))/g,
    replace: (m) => (m[1] === "1/2" ? "half" : undefined),
    detail: "1/2 is read as 1 or 2 tablets.",
  },
  {
    rule: "fraction-duration",
    pattern: /(?<![\w/.])(\d{1,3})\/(7|12|24|52)(?![\w/.]| (?:tablet|capsule))/g,
    replace: (m) => timeOfFraction[m[2] ?? ""]?.(m[1] ?? ""),
    detail: "Fractions for a time are read as counts.",
  },
  {
    rule: "roman-numerals",
    pattern: new RegExp(`(?<![\\w-])([ivxlcIVXLC]+)(?= (?:${smallUnits})(?![\\w-]))`, "g"),
    replace: (m) => romanValue(m[1] ?? "")?.toString(),
    detail: "Roman numerals are read as letters or as the wrong figure.",
  },
  {
    rule: "apothecary",
    pattern: /(?<![\w-])gr [IVXLivxl\d]+(?![\w-])/g,
    detail: "gr reads as gram. Write the amount in metric units.",
  },
  {
    rule: "apothecary",
    pattern: /(?<=\d\s?)(?:drams?|minims?|scruples?|grains?)(?![\w-])/g,
    detail: "Apothecary units are unfamiliar. Write the amount in metric units.",
  },
  {
    rule: "unit-before-number",
    pattern: new RegExp(
      `(?<![\\w\\d.,/-])(?<!\\d\\s)(kg|g|mg|mcg|mL|L|mmol|mEq)\\s(\\d[\\d.,]*)(?![\\w.]|\\s*(?:${smallUnits}|%)(?![\\w-]))`,
      "g",
    ),
    replace: (m) => `${m[2]} ${m[1]}`,
    detail: "The unit follows the number.",
  },
  {
    rule: "slash-per",
    pattern: /(\d[\d.,]*)\s?(units?|mg|g|mcg|mL|mmol|mEq)\/(\d[\d.,]*)\s?\2(?![\w-])/g,
    replace: (m) => `${m[1]} ${m[2]} and ${m[3]} ${m[2]}`,
    detail: "A slash has been read as the figure 1.",
  },
  {
    rule: "per-total-volume",
    pattern:
      /(\d+(?:\.\d+)?) (mg|mcg|g|units)\/mL in a (\d+(?:\.\d+)?) mL (?:vial|ampoule|syringe|bag|bottle)(?:, printed alone)?/g,
    replace: (m) =>
      `${Exact.of(m[1] ?? "0")
        .times(Exact.of(m[3] ?? "0"))
        .toText()} ${m[2]}/${m[3]} mL (${m[1]} ${m[2]}/mL)`,
    detail: "A strength per mL is taken for the whole container; its total comes first.",
  },
  {
    rule: "ratio-single-drug",
    pattern: /(?<=[A-Za-z] )1:(\d[\d,]*)(?![\d.])/g,
    detail: "Ratios are misread and miscounted. Write the amount per mL.",
  },
  {
    rule: "percent-suffix",
    pattern: /(?<=[A-Za-z] )(\d[\d.]*)\s?%(?!\s?[wv]\/[wv])/g,
    detail:
      "A bare percent depends on the form and the hydrate meant. Write % w/v, % v/v or % w/w, or the amount per mL.",
  },
  {
    rule: "run-together-name-dose",
    pattern: new RegExp(`(?<![\\w-])([a-z]{3,})(\\d[\\d.,]*)(?= (?:${smallUnits})(?![\\w-]))`, "g"),
    replace: (m) => `${m[1]} ${m[2]}`,
    detail: "The last letter of the name is read as a figure: l as 1.",
  },
];

/** A drug named by a formula or by letters. Matched at the start of a name, up to a blank, a hyphen or a dot. */
export const errorProneNames: readonly WordRow[] = [
  {
    rule: "MS",
    pattern: /^MS(?![\w])/g,
    detail: "Stands for morphine sulfate and for magnesium sulfate. Write the one that is meant.",
  },
  {
    rule: "MSO4-MgSO4",
    pattern: /^mgso4(?!\w)/gi,
    replace: always("magnesium sulfate"),
    detail: "The two formulas are taken for each other.",
  },
  {
    rule: "MSO4-MgSO4",
    pattern: /^mso4(?!\w)/gi,
    replace: always("morphine sulfate"),
    detail: "The two formulas are taken for each other.",
  },
  {
    rule: "chem-abbrev",
    pattern: /^kcl(?!\w)/gi,
    replace: always("potassium chloride"),
    detail: "Formulas are taken for each other: KCl for HCl.",
  },
  {
    rule: "chem-abbrev",
    pattern: /^hcl(?!\w)/gi,
    replace: always("hydrochloric acid"),
    detail: "Formulas are taken for each other: KCl for HCl.",
  },
  {
    rule: "chem-abbrev",
    pattern: /^nacl(?!\w)/gi,
    replace: always("sodium chloride"),
    detail: "Formulas are taken for each other.",
  },
  {
    rule: "drug-abbrev",
    pattern: /^mtx(?!\w)/gi,
    detail: "Stands for methotrexate and for mitoxantrone. Write the name in full.",
  },
  {
    rule: "drug-abbrev",
    pattern: /^hct(?!\w)/gi,
    detail: "Stands for hydrochlorothiazide and for hydrocortisone. Write the name in full.",
  },
  {
    rule: "drug-abbrev",
    pattern: /^azt(?!\w)/gi,
    detail: "Stands for zidovudine and for azathioprine. Write the name in full.",
  },
];

/** Error-prone words, symbols and phrases in free text (a title, a note, label text). Places lie in `text`; in their order. */
export function judgeWord(text: string): NotationFault[] {
  return judge(text, errorProneWords);
}

/** Error-prone abbreviation of a drug at the start of a name or a title. */
export function judgeName(text: string): NotationFault[] {
  return judge(text, errorProneNames);
}

function judge(text: string, rows: readonly WordRow[]): NotationFault[] {
  const faults: NotationFault[] = [];
  for (const { rule, pattern, replace, detail } of rows) {
    for (const match of text.matchAll(pattern)) {
      const replacement = replace?.(match as RegExpExecArray);
      const place = { start: match.index, end: match.index + match[0].length };
      faults.push({ rule, ...place, detail, ...(replacement === undefined ? {} : { replacement }) });
    }
  }
  return faults.sort((a, b) => a.start - b.start || a.end - b.end);
}
