import { nearNames } from "../../model/near.ts";
import { declarationCheck } from "../check.ts";
import { example } from "../example.ts";
import { didYouMean } from "../showing.ts";

export const deviationUnknown = declarationCheck({
  name: "deviation-unknown",
  family: "structure",
  severity: "error",
  title: "A deviation from a finding that does not exist",
  why: "It silences nothing; the finding that was meant still stands, or will come back unseen.",
  source: "common practice",
  bad: example([
    "  preparation bag {",
    '  deviation glass-not-filterd on bag\n    because "form KQ-118"\n    by aseptic-lead\n    until 2027-03-31\n\n  preparation bag {',
  ]),
  good: example(),
  *find({ declaration, checkNames }) {
    if (declaration.kind !== "recipe") return;
    for (const { check } of declaration.deviations) {
      if (!checkNames.has(check.name)) yield { at: check, name: check.name, near: nearNames(check.name, checkNames) };
    }
  },
  say: ({ name, near }) => ({
    text: `No finding is called \`${name}\`.${didYouMean(near)} Take the name from the finding itself.`,
  }),
});
