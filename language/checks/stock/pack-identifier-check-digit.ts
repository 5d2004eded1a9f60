import { isGtinFault, readGtin } from "../../model/gtin.ts";
import { declarationCheck } from "../check.ts";
import { example } from "../example.ts";

const fill = "  fill       10 mL\n";

export const packIdentifierCheckDigit = declarationCheck({
  name: "pack-identifier-check-digit",
  family: "stock",
  severity: "error",
  title: "A pack identifier that no pack can carry",
  why: "A wrong pack number matches no scan, or the scan of another product.",
  source:
    "Check digit calculator, worked GTIN-13 example (GS1, undated); from memory: GS1 General Specifications, GTIN formats",
  rows: ["expiry gtin-check", "expiry gtin-pad", "expiry gtin-bad-06291041500214", "expiry gtin-bad-05012345678901"],
  bad: example([fill, `${fill}  gtin       "05012345678901"\n`]),
  good: example([fill, `${fill}  gtin       "05012345678900"\n`]),
  *find({ declaration }) {
    const code = declaration.kind === "stock" ? declaration.facts.one("gtin")?.slots.code : undefined;
    if (!code) return;
    const read = readGtin(code.text);
    if (isGtinFault(read)) yield { at: code, message: read.message };
  },
  // No fix: a number with one wrong digit is never repaired by calculating the last one.
  say: ({ message }) => ({ text: message }),
});
