import { chunkCheck } from "../check.ts";
import { example } from "../example.ts";
import { faultsNamed, sayWritten, writeSafe } from "./figures.ts";

export const smallDecimal = chunkCheck({
  name: "small-decimal",
  family: "notation",
  severity: "warning",
  title: "A figure below one where the site uses the smaller unit",
  why: "Below one the smaller unit needs no decimal point that could be missed.",
  source: "Prescription writing (national formulary text, copy) (UK national formulary)",
  rows: ["error-prone-notation unneeded-decimal"],
  bad: example(
    ["  role           pharmacist", "  role           pharmacist\n  small-decimals smaller-unit"],
    ["dose           from 500 mg", "dose           from 0.5 g"],
  ),
  good: example(["  role           pharmacist", "  role           pharmacist\n  small-decimals smaller-unit"]),
  find: (context) => faultsNamed(context, "unneeded-decimal"),
  say: sayWritten,
  fixes: writeSafe,
});
