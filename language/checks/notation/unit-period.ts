import { chunkCheck } from "../check.ts";
import { example } from "../example.ts";
import { faultsNamed, sayWritten, writeSafe } from "./figures.ts";

export const unitPeriod = chunkCheck({
  name: "unit-period",
  family: "notation",
  severity: "warning",
  title: "A dot behind a unit",
  why: "The dot can look like a 1.",
  source: "ISMP list, older edition (reproduced) (Institute for Safe Medication Practices)",
  rows: ["error-prone-notation unit-period"],
  bad: example(["infuse-over     4 h", "infuse-over     4 h."]),
  good: example(),
  find: (context) => faultsNamed(context, "unit-period"),
  say: sayWritten,
  fixes: writeSafe,
});
