import { chunkCheck } from "../check.ts";
import { example } from "../example.ts";
import { faultsNamed, sayWritten, writeSafe } from "./figures.ts";

export const unitRunTogether = chunkCheck({
  name: "unit-run-together",
  family: "notation",
  severity: "warning",
  title: "A number and its unit without a blank",
  why: "The m of a unit has been taken for one or two zeros.",
  source: "ISMP list, older edition (reproduced) (Institute for Safe Medication Practices)",
  rows: ["error-prone-notation run-together-number-unit"],
  bad: example(["fill       10 mL", "fill       10mL"]),
  good: example(),
  find: (context) => faultsNamed(context, "run-together-number-unit"),
  say: sayWritten,
  fixes: writeSafe,
});
