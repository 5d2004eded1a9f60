import { chunkCheck } from "../check.ts";
import { example } from "../example.ts";
import { faultsNamed } from "./figures.ts";
import { inPrintedText, type Pattern } from "./printed-text.ts";
import { sayWrittenOrPrinted, writeEither } from "./written-or-printed.ts";

const decimals: Readonly<Record<string, string>> = { "½": "5", "¼": "25", "¾": "75" };

const patterns: readonly Pattern[] = [
  {
    pattern: /\d*[½¼¾]/g,
    meanings: ([text]) => [`${text.slice(0, -1) || "0"}.${decimals[text.slice(-1)]}`],
    detail: "Fractions are for customary units; metric amounts are written as decimals.",
  },
  {
    pattern: /(?<![\w/.,])[1-9]\/[1-9]\d?(?= (?:tablet|capsule|ampoule|vial))/g,
    meanings: ([text]) => (text === "1/2" ? ["half"] : decimalOf(text)),
    detail: "1/2 is read as 1 or 2.",
  },
  {
    pattern: /(?<![\w/.,])(?:\d{1,2} )?[1-9]\/[1-9]\d?(?= ?(?:mL|mg|mcg|micrograms?|g|units?|mmol|mEq|h)\b)/g,
    meanings: ([text]) => decimalOf(text),
    detail: "1/2 is read as 1 or 2.",
  },
];

/** `1/2` and `1 1/2`, where a decimal says the same; of a third the author alone knows how it is rounded. */
function decimalOf(fraction: string): string[] {
  const [, whole = "0", above, below] = /^(?:(\d+) )?(\d+)\/(\d+)$/.exec(fraction)!;
  const tenths = (Number(above) * 1000) / Number(below);
  return Number.isInteger(tenths) ? [`${Number(whole) + tenths / 1000}`] : [];
}

const note = (text: string) =>
  example([
    "  light          not-sensitive",
    `  light          not-sensitive
  note           "${text}"`,
  ]);

export const fraction = chunkCheck({
  name: "fraction",
  family: "notation",
  severity: "warning",
  title: "A metric amount written as a fraction",
  why: "The slash has been read as the figure 1, and 1/2 as 1 or 2.",
  source:
    "Error-prone dose designations chart reproducing the ISMP list (monthly prescribing reference); Medication dosage calculations: best practices (Canadian practical nurse college)",
  rows: ["error-prone-notation half-tablet", "error-prone-notation mixed-fraction"],
  bad: note("Packs of 1½ mL are out of use."),
  good: note("Packs of 1.5 mL are out of use."),
  find: (context) => [
    ...faultsNamed(context, "half-tablet", "mixed-fraction").filter((f) => f.safe !== undefined),
    ...inPrintedText(context, patterns),
  ],
  say: sayWrittenOrPrinted,
  fixes: writeEither,
});
