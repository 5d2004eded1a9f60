import { chunkCheck } from "../check.ts";
import { example } from "../example.ts";
import { faultsNamed, sayWritten, writeSafe } from "./figures.ts";

export const thousandsNotInWords = chunkCheck({
  name: "thousands-not-in-words",
  family: "notation",
  severity: "warning",
  title: "Thousands in figures where the site writes words",
  why: "Words cannot lose a zero.",
  source:
    "Recommendations for terminology, abbreviations and symbols used in medicines documentation, summary sheet (Australian Commission on Safety and Quality in Health Care)",
  rows: ["error-prone-notation thousands-in-words"],
  bad: example(
    ["  role           pharmacist", "  role           pharmacist\n  thousands      words"],
    ["rate           up to 9 g/h", "rate           up to 9000 mg/h"],
  ),
  good: example(
    ["  role           pharmacist", "  role           pharmacist\n  thousands      words"],
    ["rate           up to 9 g/h", "rate           up to 9 thousand mg/h"],
  ),
  find: (context) => faultsNamed(context, "thousands-in-words"),
  say: sayWritten,
  fixes: writeSafe,
});
