import type { Spot } from "../../model/slots.ts";
import { chunkCheck } from "../check.ts";
import { replaceText } from "../edits.ts";
import { example } from "../example.ts";
import { inPrintedText, type Pattern } from "./printed-text.ts";
import { writtenRoutes } from "./written-routes.ts";

const routes: Readonly<Record<string, string>> = {
  sc: "subcutaneous",
  sq: "subcutaneous",
  "sub-q": "subcutaneous",
  subq: "subcutaneous",
  ij: "injection",
};

const patterns: readonly Pattern[] = [
  {
    pattern: /\b(?:SC|SQ|[Ss]ub[ -]q|[Ss]\/[Cc])\b|(?<![\w.])[Ss]\.[Cc]\.(?!\w)/g,
    meanings: ["subcutaneously"],
    detail: "",
  },
  { pattern: /\bIJ\b/g, meanings: ["injection"], detail: "" },
  { pattern: /\bSL\b/g, meanings: ["sublingual"], detail: "" },
  // Among words in capitals it is a word.
  {
    pattern:
      /(?<![\w.]|[A-Z]{2} |\b(?:the|by|call|[Cc]ontact|[Aa]sk) )IT(?![\w.]| [A-Z]{2}| (?:department|service|system|team|support))|(?<![\w.])[Ii]\.[Tt]\.(?!\w)/g,
    meanings: ["intrathecal"],
    detail: "",
  },
  { pattern: /\bIN\b(?! [A-Z]{2})/g, meanings: ["intranasal"], detail: "" },
];

interface Abbreviated {
  at: Spot;
  written: string;
  meant: string;
}

export const routeAbbreviated = chunkCheck({
  name: "route-abbreviated",
  family: "notation",
  severity: "warning",
  title: "An abbreviated route that is read as another",
  why: "SC and SL have been read for each other, SQ as 5 every, IN as IM or IV, IJ as IV; IT stands for intrathecal and for inhalation therapy.",
  source:
    "Table 1 of a study of high-risk abbreviations (BMJ Open); ISMP list, older edition (copy) (Institute for Safe Medication Practices); Error-prone abbreviations chart reproducing the ISMP list (monthly prescribing reference); SL: prescribing instructions of a New Zealand district (table of abbreviations); IT: a public table of dangerous abbreviations (November 2023)",
  rows: ["error-prone-notation SC-SQ", "error-prone-notation IN", "error-prone-notation IJ"],
  bad: example([
    "  light          not-sensitive",
    '  light          not-sensitive\n  note           "Never given SC."',
  ]),
  good: example([
    "  light          not-sensitive",
    '  light          not-sensitive\n  note           "Never given subcutaneously."',
  ]),
  *find(context): Generator<Abbreviated, void> {
    for (const { token, isBan } of writtenRoutes(context.reading)) {
      const { text, start, end } = token;
      const meant = isBan ? undefined : routes[text.toLowerCase()];
      if (meant !== undefined) yield { at: { start, end }, written: text, meant };
    }
    for (const { at, written, meanings } of inPrintedText(context, patterns))
      yield { at, written, meant: meanings[0]! };
  },
  say: ({ written, meant }) => ({
    text: `The route ${written} is read as another route or as a figure. Write ${meant}.`,
  }),
  fixes: ({ at, meant }) => [{ title: `Write ${meant}`, edits: [replaceText(at, meant)], preferred: true }],
});
