import { showQuantity } from "../../quantities/quantity.ts";
import { ratioStrength as strengthOf } from "../../quantities/ratio.ts";
import { chunkCheck } from "../check.ts";
import { example } from "../example.ts";
import { faultsNamed, sayWritten, writeSafe } from "./figures.ts";
import { inPrintedText, type Pattern, type PrintedFault, sayPrinted, writeOut } from "./printed-text.ts";

/** Behind the name of a drug a ratio is grams in millilitres by custom; `1:1` and small ones are parts of a mixture. */
const patterns: readonly Pattern[] = [
  {
    pattern: /(?<=[A-Za-z] )1 in (?:\d{1,3}(?:[, ]\d{3})+|\d{4,})(?![\d.:])/g,
    meanings: ([text]) => {
      const strength = strengthOf(text.replace(" in ", ":").replace(/[, ]/g, ""), "w/v");
      return strength ? [showQuantity(strength)] : [];
    },
    detail: "Ratios are misread and miscounted.",
  },
  {
    pattern: /(?<=[A-Za-z] )1:(?:\d{1,3}(?:,\d{3})+|\d{3,})(?![\d.:])/g,
    meanings: ([text]) => {
      const strength = strengthOf(text, "w/v");
      return strength ? [showQuantity(strength)] : [];
    },
    detail: "Ratios are misread and miscounted.",
  },
];

export const ratioStrength = chunkCheck({
  name: "ratio-strength",
  family: "notation",
  severity: "error",
  title: "A strength written as a ratio",
  why: "Ratios are misread and miscounted; deaths are reported.",
  source: "Error-prone dose designations chart reproducing the ISMP list (monthly prescribing reference)",
  rows: ["error-prone-notation ratio-single-drug"],
  bad: example(["strength   500 mg/mL", "strength   1:2 w/v"]),
  good: example(),
  // One that stands for no strength is told as a figure that is not read, which no site switches off.
  find: (context) => [
    ...faultsNamed(context, "ratio-single-drug").filter((f) => f.safe !== undefined),
    ...inPrintedText(context, patterns),
  ],
  say: (found) => (isPrinted(found) ? sayPrinted(found) : sayWritten(found)),
  fixes: (found) => (isPrinted(found) ? writeOut(found) : writeSafe(found)),
});

function isPrinted(found: object): found is PrintedFault {
  return "meanings" in found;
}
