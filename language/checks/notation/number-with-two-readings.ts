import { chunkCheck } from "../check.ts";
import { replaceText } from "../edits.ts";
import { example } from "../example.ts";
import { faultsNamed, sayWritten } from "./figures.ts";

export const numberWithTwoReadings = chunkCheck({
  name: "number-with-two-readings",
  family: "notation",
  severity: "error",
  title: "A figure that can be read in two ways, or in none",
  why: "Nothing is computed from a figure whose size is a guess.",
  source: "from memory: published lists of error-prone notation",
  rows: [],
  bad: example([
    "  light          not-sensitive",
    "  light          not-sensitive\n  container-material  polyolefin suitable for giving over 24,00 h",
  ]),
  good: example([
    "  light          not-sensitive",
    "  light          not-sensitive\n  container-material  polyolefin suitable for giving over 24 h",
  ]),
  find: (context) => [
    ...faultsNamed(context, "comma-not-thousands", "gap-in-number", "number-shape", "leading-zero"),
    // With a safe form these are findings of their own; without one the figure has no value.
    ...faultsNamed(context, "half-tablet", "mixed-fraction", "unit-case").filter((f) => f.safe === undefined),
  ],
  say: sayWritten,
  // Which reading is meant only the author knows; a gap before three figures is offered as one number.
  fixes: ({ rule, at }, { chunk }) => {
    const figures = chunk.text.slice(at.start, at.end);
    if (rule === "unit-case" && figures === "G") {
      return ["g", "gauge"].map((unit) => ({ title: `Write ${unit}`, edits: [replaceText(at, unit)] }));
    }
    if (rule !== "gap-in-number" || !/^\d{1,3}(?:\s\d{3})+(?:\.\d+)?$/.test(figures)) return [];
    const joined = figures.replace(/\s/g, ",");
    return [{ title: `Write ${joined}`, edits: [replaceText(at, joined)] }];
  },
});
