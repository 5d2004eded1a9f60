import { chunkCheck } from "../check.ts";
import { example } from "../example.ts";
import { faultsNamed, sayWritten, writeSafe } from "./figures.ts";

export const nanogramsAsNg = chunkCheck({
  name: "nanograms-as-ng",
  family: "notation",
  severity: "error",
  title: "ng written for nanograms",
  why: "ng has been read as mg or as nasogastric.",
  source: "Error-prone abbreviations chart reproducing the ISMP list (monthly prescribing reference)",
  rows: ["error-prone-notation nanogram"],
  bad: example(["dose           from 500 mg", "dose           from 5 ng"]),
  good: example(["dose           from 500 mg", "dose           from 5 nanograms"]),
  find: (context) => faultsNamed(context, "nanogram"),
  say: sayWritten,
  fixes: writeSafe,
});
