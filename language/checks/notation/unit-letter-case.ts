import { chunkCheck } from "../check.ts";
import { example } from "../example.ts";
import { faultsNamed, sayWritten, writeSafe } from "./figures.ts";

export const unitLetterCase = chunkCheck({
  name: "unit-letter-case",
  family: "notation",
  severity: "warning",
  title: "Large and small letters of a unit exchanged",
  why: "Large and small letters are part of a unit: M is a million times m.",
  source: "from memory: published lists of error-prone notation",
  rows: [],
  bad: example(["fill       10 mL", "fill       10 ML"]),
  good: example(),
  find: (context) => faultsNamed(context, "unit-case").filter((f) => f.safe !== undefined),
  say: sayWritten,
  fixes: writeSafe,
});
