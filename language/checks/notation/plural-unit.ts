import { chunkCheck } from "../check.ts";
import { example } from "../example.ts";
import { faultsNamed, sayWritten, writeSafe } from "./figures.ts";

export const pluralUnit = chunkCheck({
  name: "plural-unit",
  family: "notation",
  severity: "warning",
  title: "An s added to a unit",
  why: "The added s can be read as another unit or a figure.",
  source: "Medication dosage calculations: best practices (Canadian practical nurse college)",
  rows: ["error-prone-notation plural-unit"],
  bad: example(["fill       10 mL", "fill       10 mLs"]),
  good: example(),
  find: (context) => faultsNamed(context, "plural-unit"),
  say: sayWritten,
  fixes: writeSafe,
});
