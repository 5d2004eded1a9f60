import { declarationCheck } from "../check.ts";
import { isBeyondDeviations } from "../deviations.ts";
import { withoutLine } from "../edits.ts";
import { example } from "../example.ts";

const deviation =
  '  deviation dose-not-delivered on bag\n    because "form KQ-118"\n    by aseptic-lead\n    until 2027-03-31\n\n  preparation bag {';

export const deviationNotAllowed = declarationCheck({
  name: "deviation-not-allowed",
  family: "structure",
  severity: "error",
  title: "A deviation from a finding that no deviation may silence",
  why: "The site has decided that this finding always stands; the deviation silences nothing.",
  source: "common practice",
  bad: example(
    ["  role           pharmacist\n", "  role           pharmacist\n  never-silenced  dose-not-delivered\n"],
    ["  preparation bag {", deviation],
  ),
  good: example([
    "  role           pharmacist\n",
    "  role           pharmacist\n  never-silenced  dose-not-delivered\n",
  ]),
  *find({ declaration, policy }) {
    if (declaration.kind !== "recipe") return;
    for (const each of declaration.deviations) {
      const name = each.check.name;
      const bySite = policy.neverSilenced.has(name);
      if (bySite || isBeyondDeviations(name)) yield { at: each.check, deviation: each, name, bySite };
    }
  },
  say: ({ name, bySite }) => ({
    text: `${bySite ? "The site lets no deviation silence" : "No deviation can silence"} \`${name}\`; the finding stands. Mend what it speaks of, and take this deviation out.`,
  }),
  fixes: ({ deviation: each }, { chunk }) => [
    { title: "Take the deviation out", edits: [withoutLine(chunk.text, each)] },
  ],
});
