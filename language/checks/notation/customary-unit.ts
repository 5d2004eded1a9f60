import { chunkCheck } from "../check.ts";
import { standardAnd } from "../example.ts";
import { faultsNamed, sayWritten, writeSafe } from "./figures.ts";
import { inPrintedText, type Pattern } from "./printed-text.ts";

export const customaryUnit = chunkCheck({
  name: "customary-unit",
  family: "notation",
  severity: "error",
  title: "A unit outside the metric system",
  why: "Such units have more than one size and are unfamiliar; gr reads as gram.",
  source: "Official Do Not Use list: additional abbreviations for possible future inclusion (The Joint Commission)",
  rows: ["error-prone-notation apothecary"],
  bad: standardAnd(`device short-syringe {
  source      guide "devices"
  kind        syringe
  capacity    1 mL
  graduation  0.02 mL
  dead-space  1 tsp
}
`),
  good: standardAnd(`device short-syringe {
  source      guide "devices"
  kind        syringe
  capacity    1 mL
  graduation  0.02 mL
  dead-space  0.05 mL
}
`),
  find: (context) => [...faultsNamed(context, "apothecary", "customary-unit"), ...inPrintedText(context, patterns)],
  say: (found) =>
    "meanings" in found
      ? { text: `The text that is printed says ${found.written}. ${found.detail} Write the amount in metric units.` }
      : sayWritten(found),
  fixes: (found) => ("meanings" in found ? [] : writeSafe(found)),
});

const patterns: readonly Pattern[] = [
  { pattern: /\bgr [IVXivx\d]+\b/g, meanings: [], detail: "gr reads as gram." },
  {
    pattern:
      /(?<=\d ?)(?:lbs?|pounds?|ounces?)\b|(?<=\b(?:mg|mcg|micrograms|g|units|mmol|mL)(?:\/| per ))(?:lb|pound)\b/g,
    meanings: [],
    detail: "2.2 of them are a kilogram, so that a dose for each is taken for one for each kg.",
  },
  { pattern: /(?<=\d ?)(?:drams?|minims?|scruples?|grains?)\b/g, meanings: [], detail: "Such units are unfamiliar." },
];
