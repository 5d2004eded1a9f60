import { chunkCheck } from "../check.ts";
import { example } from "../example.ts";
import { faultsNamed, sayWritten } from "./figures.ts";

const house: [string, string] = [
  "  role           pharmacist",
  "  role           pharmacist\n  decimals       one-place",
];

export const manyDecimals = chunkCheck({
  name: "many-decimals",
  family: "notation",
  severity: "warning",
  title: "A figure with several decimals where the site keeps one",
  why: "Each decimal is a figure more that may be misread or left out.",
  source: "Decimal points (Scottish palliative care guidelines, undated excerpt)",
  rows: ["error-prone-notation many-decimals"],
  bad: example(
    house,
    ["concentration  37.04 mg/mL", "concentration  37 mg/mL"],
    ["dose           from 500 mg", "dose           from 500.25 mg"],
  ),
  good: example(house, ["concentration  37.04 mg/mL", "concentration  37 mg/mL"]),
  find: (context) => faultsNamed(context, "many-decimals"),
  say: sayWritten,
});
