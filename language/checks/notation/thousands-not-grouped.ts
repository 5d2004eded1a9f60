import { chunkCheck } from "../check.ts";
import { example } from "../example.ts";
import { faultsNamed, sayWritten, writeSafe } from "./figures.ts";

export const thousandsNotGrouped = chunkCheck({
  name: "thousands-not-grouped",
  family: "notation",
  severity: "warning",
  title: "Four figures or more in a row",
  why: "Long rows of figures are miscounted: 100000 has been read as 10,000 and as 1,000,000.",
  source: "ISMP list, older edition (reproduced) (Institute for Safe Medication Practices)",
  rows: ["error-prone-notation no-thousands-separator"],
  bad: example(["rate           up to 9 g/h", "rate           up to 9000 mg/h"]),
  good: example(["rate           up to 9 g/h", "rate           up to 9,000 mg/h"]),
  find: (context) => faultsNamed(context, "no-thousands-separator"),
  say: sayWritten,
  fixes: writeSafe,
});
