import { chunkCheck } from "../check.ts";
import { replaceText } from "../edits.ts";
import { example } from "../example.ts";
import { faultsNamed, sayWritten } from "./figures.ts";

export const numberWithTwoReadings = chunkCheck({
  name: "number-with-two-readings",
  family: "notation",
  severity: "error",
  title: "A number that can be read in two ways",
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
  find: (context) => faultsNamed(context, "comma-not-thousands", "gap-in-number", "number-shape", "leading-zero"),
  say: sayWritten,
  // Which reading is meant only the author knows; a gap before three figures is offered as one number.
  fixes: ({ rule, at }, { chunk }) => {
    const parts = /^(\d{1,3})\s(\d{3})$/.exec(chunk.text.slice(at.start, at.end));
    if (rule !== "gap-in-number" || !parts) return [];
    return [{ title: `Write ${parts[1]},${parts[2]}`, edits: [replaceText(at, `${parts[1]},${parts[2]}`)] }];
  },
});
