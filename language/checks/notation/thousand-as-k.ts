import { chunkCheck } from "../check.ts";
import { standardAnd } from "../example.ts";
import { faultsNamed } from "./figures.ts";
import { inPrintedText, type Pattern } from "./printed-text.ts";
import { sayWrittenOrPrinted, writeEither } from "./written-or-printed.ts";

/** `5K units` in printed text; `5 KIU` is told as a unit. */
const patterns: readonly Pattern[] = [
  {
    pattern: /(?<![\w.,])\d{1,3} ?[Kk](?= ?(?:units?|IU)\b)/g,
    meanings: ([text]) => [`${Number.parseInt(text, 10)},000`],
    detail: "K has been taken for a thousand, for a million and for potassium.",
  },
];

export const thousandAsK = chunkCheck({
  name: "thousand-as-k",
  family: "notation",
  severity: "error",
  title: "K written for a thousand",
  why: "K has been taken for a thousand, for a million and for potassium.",
  source: "Error-prone abbreviations chart reproducing the ISMP list (monthly prescribing reference)",
  rows: ["error-prone-notation thousand-K"],
  bad: standardAnd(`device short-syringe {
  source      guide "devices"
  kind        syringe
  capacity    1 mL
  graduation  0.02 mL
  scale-of    5 K units/mL
}
`),
  good: standardAnd(`device short-syringe {
  source      guide "devices"
  kind        syringe
  capacity    1 mL
  graduation  0.02 mL
  scale-of    5,000 units/mL
}
`),
  find: (context) => [...faultsNamed(context, "thousand-K"), ...inPrintedText(context, patterns)],
  say: sayWrittenOrPrinted,
  fixes: writeEither,
});
