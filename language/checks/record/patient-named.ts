import { mostSentences, remembered } from "../../quantities/remembered.ts";
import { writtenCheck } from "../check.ts";
import { example } from "../example.ts";
import { printedNotes } from "../printed-notes.ts";

const label = (line: string) =>
  example(["  preparation bag {", `  label-text {\n    line "${line}"\n  }\n\n  preparation bag {`]);

const surname = "(?:[A-Z]\\.? ){0,2}[A-Z][A-Za-z'’-]+";
const date = "\\d{1,4}[./-]\\d{1,2}[./-]\\d{1,4}|\\d{1,2}\\.? (?:[A-Z][a-z]+|[A-Z]{3})\\.? \\d{2,4}";

/** What stands behind `Patient:` and is no name. */
const noNames =
  "adults? child children neonates? newborns? infants? baby babies male female pregnant weight name label see any all only affix write check " +
  "must may do keep give lie lies ward";
const noName = `(?:${noNames
  .split(" ")
  .flatMap((word) => [`[${word[0]}${word[0]!.toUpperCase()}]${word.slice(1)}`, word.toUpperCase()])
  .join("|")})\\b`;

/** Each with what it is; a form to be filled in (`Patient: ______`, `DOB:`) names nobody. */
const named: readonly [RegExp, string][] = [
  [new RegExp(`\\b(?:Mr|Mrs|Ms|Miss|MRS)\\.? ${surname}`), "name"],
  [
    new RegExp(`\\b(?:[Pp]atient|PATIENT|[Pp]t|PT)(?:'s)?(?: [Nn]ame| NAME)?\\s*[:=]\\s*(?!${noName})${surname}`),
    "name",
  ],
  [new RegExp(`\\b(?:DOB|D\\.O\\.B\\.?|[Dd]ate of birth|[Bb]orn(?: on)?)\\b:?\\s*(?:${date})`), "date of birth"],
  [/\b(?:[Bb]ed|BED)(?: (?:no\.?|number))?:? ?(?:\d{1,3}[A-Z]?|[A-Z])\b(?! ?(?:°|degrees|cm))/, "bed"],
  [
    /\b(?:MRN|(?:[Hh]ospital|[Pp]atient|[Hh]ealth|[Ii]nsurance|[Cc]ase) (?:no\.?|number|id|ID))\b\.?:?\s*[A-Z]{0,3}\d[\d -]{3,}\d/,
    "number",
  ],
];

interface Named {
  said: string;
  what: string;
}

const namesIn = remembered(
  (text: string): readonly Named[] =>
    named.flatMap(([pattern, what]) => {
      const said = pattern.exec(text)?.[0].trim();
      return said === undefined ? [] : [{ said, what }];
    }),
  mostSentences,
);

export const patientNamed = writtenCheck({
  name: "patient-named",
  family: "record",
  severity: "warning",
  title: "A title, a label line or a note that speaks of one patient by name, bed, number or date of birth",
  why: "A recipe is made again for others: what it prints stands on every label, and a wrong name on a bag is a wrong patient.",
  source: "common practice",
  bad: label("For Mrs Harrow"),
  good: label("Patient: ____________"),
  *find({ recipe }) {
    const title = recipe.facts.one("title")?.slots.text;
    for (const [where, texts] of [
      ["title", title ? [title] : []],
      ["line of the label", (recipe.labelText?.all("line") ?? []).map(({ slots }) => slots.text)],
      ["note", printedNotes(recipe)],
    ] as const) {
      for (const at of texts) {
        const [first, ...more] = namesIn(at.text);
        if (first) yield { at, where, found: [first, ...more] };
      }
    }
  },
  say: ({ where, found }) => ({
    text: `This ${where} says ${found.map(({ said }) => said).join(" and ")}. A recipe is printed for every patient that it is made for, and this looks like the ${found.map(({ what }) => what).join(" and the ")} of one. Take it out; it belongs on the order and on the label of the day.`,
  }),
});
