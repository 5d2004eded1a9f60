import { chunkCheck } from "../check.ts";
import { standardAnd } from "../example.ts";
import { faultsNamed } from "./figures.ts";
import { inPrintedText, type Pattern } from "./printed-text.ts";
import { sayWrittenOrPrinted, writeEither } from "./written-or-printed.ts";

/** `5 M units` in printed text; `5 MU` is told as a unit. */
const patterns: readonly Pattern[] = [
  {
    pattern: /(?<![\w.,])\d+(?:\.\d+)? ?MM?(?= ?(?:units?|IU)\b)/g,
    meanings: ([text]) => [`${Number.parseFloat(text)} million`],
    detail: "M has meant both thousand and million.",
  },
];

export const millionAsM = chunkCheck({
  name: "million-as-m",
  family: "notation",
  severity: "error",
  title: "M written for a million",
  why: "M has meant both thousand and million.",
  source: "Error-prone abbreviations chart reproducing the ISMP list (monthly prescribing reference)",
  rows: ["error-prone-notation million-M"],
  bad: standardAnd(`device short-syringe {
  source      guide "devices"
  kind        syringe
  capacity    1 mL
  graduation  0.02 mL
  scale-of    5 M units/mL
}
`),
  good: standardAnd(`device short-syringe {
  source      guide "devices"
  kind        syringe
  capacity    1 mL
  graduation  0.02 mL
  scale-of    5 million units/mL
}
`),
  find: (context) => [...faultsNamed(context, "million-M"), ...inPrintedText(context, patterns)],
  say: sayWrittenOrPrinted,
  fixes: writeEither,
});
