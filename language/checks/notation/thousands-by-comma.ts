import { chunkCheck } from "../check.ts";
import { example } from "../example.ts";
import { faultsNamed, sayWritten, writeSafe } from "./figures.ts";

export const thousandsByComma = chunkCheck({
  name: "thousands-by-comma",
  family: "notation",
  severity: "warning",
  title: "Thousands grouped by a comma where the site uses a gap",
  why: "Two ways of grouping in one library are misread for each other.",
  source: "Medication dosage calculations: best practices (Canadian practical nurse college)",
  rows: ["error-prone-notation space-separator"],
  bad: example(
    ["  role           pharmacist", "  role           pharmacist\n  thousands      thin-space"],
    ["rate           up to 9 g/h", "rate           up to 9,000 mg/h"],
  ),
  good: example(
    ["  role           pharmacist", "  role           pharmacist\n  thousands      thin-space"],
    ["rate           up to 9 g/h", "rate           up to 9000 mg/h"],
  ),
  find: (context) => faultsNamed(context, "space-separator"),
  say: sayWritten,
  fixes: writeSafe,
});
