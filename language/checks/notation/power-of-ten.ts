import { chunkCheck } from "../check.ts";
import { example } from "../example.ts";
import { faultsNamed } from "./figures.ts";
import { inPrintedText, type Pattern } from "./printed-text.ts";
import { sayWrittenOrPrinted, writeEither } from "./written-or-printed.ts";

const powers: Readonly<Record<string, readonly string[]>> = {
  "3": ["1,000"],
  "6": ["1 million"],
  "9": ["1,000 million"],
};

const patterns: readonly Pattern[] = [
  {
    pattern: /(?<!\d)10(?:\^[1-9]\d?|[¹²³⁴-⁹][⁰¹²³⁴-⁹]?)/g,
    meanings: ([text]) => powers[text.slice(2).normalize("NFKC").replace("^", "")] ?? [],
    detail: "A power of ten loses its raised figure and is not understood everywhere.",
  },
  {
    pattern: /(?<![\w.,])\d+(?:\.\d+)?[eE]\+?\d{1,2}(?= ?(?:units?|IU|m?g|mcg|m?L|cells)\b)/g,
    meanings: [],
    detail: "A power of ten loses its raised figure and is not understood everywhere.",
  },
];

export const powerOfTen = chunkCheck({
  name: "power-of-ten",
  family: "notation",
  severity: "error",
  title: "A number written as a power of ten",
  why: "The raised figure is lost: 10^6 becomes 106.",
  source: "ISMP list, older edition (reproduced) (Institute for Safe Medication Practices)",
  rows: ["error-prone-notation power-of-ten"],
  bad: example([
    "  light          not-sensitive",
    '  light          not-sensitive\n  note           "Packs of 10^6 units are out of use."',
  ]),
  good: example([
    "  light          not-sensitive",
    '  light          not-sensitive\n  note           "Packs of 1 million units are out of use."',
  ]),
  find: (context) => [...faultsNamed(context, "power-of-ten"), ...inPrintedText(context, patterns)],
  say: sayWrittenOrPrinted,
  fixes: writeEither,
});
