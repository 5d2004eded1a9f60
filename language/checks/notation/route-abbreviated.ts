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
  { pattern: /\b(?:SC|SQ|[Ss]ub q)\b/g, meanings: ["subcutaneously"], detail: "" },
  { pattern: /\bIJ\b/g, meanings: ["injection"], detail: "" },
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
  why: "SC has been read as SL, SQ as 5 every, IN as IM or IV, IJ as IV.",
  source:
    "Table 1 of a study of high-risk abbreviations (BMJ Open); ISMP list, older edition (copy) (Institute for Safe Medication Practices); Error-prone abbreviations chart reproducing the ISMP list (monthly prescribing reference)",
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
