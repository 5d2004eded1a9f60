import { chunkCheck } from "../check.ts";
import { example } from "../example.ts";
import { faultsNamed, sayWritten, writeSafe } from "./figures.ts";

export const millilitresAsCc = chunkCheck({
  name: "millilitres-as-cc",
  family: "notation",
  severity: "warning",
  title: "cc or cm3 written for mL",
  why: "cc has been read as u or as zeros.",
  source:
    "ISMP list of error-prone abbreviations, symbols and dose designations (Institute for Safe Medication Practices); Prescription writing guidance (national essential medicines guideline in a WHO collection) (WHO collection)",
  rows: ["error-prone-notation cc", "error-prone-notation cm3"],
  bad: example(["fill       10 mL", "fill       10 cc"]),
  good: example(),
  find: (context) => faultsNamed(context, "cc", "cm3"),
  say: sayWritten,
  fixes: writeSafe,
});
