import { composition } from "../../quantities/formula.ts";
import { declarationCheck } from "../check.ts";
import { example } from "../example.ts";

export const formulaNotRead = declarationCheck({
  name: "formula-not-read",
  family: "units",
  severity: "error",
  title: "A chemical formula that cannot be read",
  why: "mmol, mEq and osmolarity come from the molar mass; without it they are not watched, and with a slip in it they are wrong.",
  source: "common practice",
  bad: example(
    ['formula        "MgSO4.7H2O"', 'formula        "MgSO4.7H20"'],
    ["access          peripheral", "access          central"],
  ),
  good: example(),
  *find({ declaration }) {
    if (declaration.kind !== "drug") return;
    const text = declaration.facts.one("formula")?.slots.text;
    if (!text) return;
    const read = composition(text.text);
    if ("refused" in read) yield { at: text, reason: read.reason };
  },
  say: ({ reason }) => ({ text: reason }),
});
