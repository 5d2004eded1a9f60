import { chunkCheck } from "../check.ts";
import { example } from "../example.ts";
import { faultsNamed, sayWritten, writeSafe } from "./figures.ts";

export const ratioStrength = chunkCheck({
  name: "ratio-strength",
  family: "notation",
  severity: "error",
  title: "A strength written as a ratio",
  why: "Ratios are misread and miscounted; deaths are reported.",
  source: "Error-prone dose designations chart reproducing the ISMP list (monthly prescribing reference)",
  rows: ["error-prone-notation ratio-single-drug"],
  bad: example(["strength   500 mg/mL", "strength   1:2 w/v"]),
  good: example(),
  find: (context) => faultsNamed(context, "ratio-single-drug"),
  say: sayWritten,
  fixes: writeSafe,
});
