import { chunkCheck } from "../check.ts";
import { example } from "../example.ts";
import { faultsNamed, sayWritten, writeSafe } from "./figures.ts";

export const nakedDecimal = chunkCheck({
  name: "naked-decimal",
  family: "notation",
  severity: "error",
  title: "A decimal point without a figure before it",
  why: "Where the point is not seen the figure reads ten times too large or more.",
  source: "Official Do Not Use list (The Joint Commission)",
  rows: ["error-prone-notation naked-decimal"],
  bad: example(["dose           from 500 mg", "dose           from .5 g"]),
  good: example(["dose           from 500 mg", "dose           from 0.5 g"]),
  find: (context) => faultsNamed(context, "naked-decimal"),
  say: sayWritten,
  fixes: writeSafe,
});
