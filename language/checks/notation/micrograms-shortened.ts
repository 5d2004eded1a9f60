import { chunkCheck } from "../check.ts";
import { example } from "../example.ts";
import { faultsNamed, sayWritten, writeSafe } from "./figures.ts";

export const microgramsShortened = chunkCheck({
  name: "micrograms-shortened",
  family: "notation",
  severity: "warning",
  title: "mcg where the site writes micrograms in full",
  why: "Two spellings in one library are sooner or later misread.",
  source: "Prescription writing guidance (national essential medicines guideline in a WHO collection) (WHO collection)",
  rows: ["error-prone-notation microgram-full"],
  bad: example(
    ["  role           pharmacist", "  role           pharmacist\n  microgram      micrograms"],
    ["dose           from 500 mg", "dose           from 500 mcg"],
  ),
  good: example(
    ["  role           pharmacist", "  role           pharmacist\n  microgram      micrograms"],
    ["dose           from 500 mg", "dose           from 500 micrograms"],
  ),
  find: (context) => faultsNamed(context, "microgram-full"),
  say: sayWritten,
  fixes: writeSafe,
});
