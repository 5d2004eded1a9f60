import { chunkCheck } from "../check.ts";
import { example } from "../example.ts";
import { faultsNamed, sayWritten, writeSafe } from "./figures.ts";

export const timeAsFraction = chunkCheck({
  name: "time-as-fraction",
  family: "notation",
  severity: "error",
  title: "A time written as a fraction",
  why: "Fractions for a time are read as counts.",
  source: "Do Not Use: dangerous abbreviations, symbols and dose designations, 2025 update (ISMP Canada)",
  rows: ["error-prone-notation fraction-duration"],
  bad: example([
    "  light          not-sensitive",
    "  light          not-sensitive\n  container-material  polyolefin suitable for giving over 1/7",
  ]),
  good: example([
    "  light          not-sensitive",
    "  light          not-sensitive\n  container-material  polyolefin suitable for giving over 1 day",
  ]),
  find: (context) => faultsNamed(context, "fraction-duration"),
  say: sayWritten,
  fixes: writeSafe,
});
