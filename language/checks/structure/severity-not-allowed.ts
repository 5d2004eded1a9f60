import { alwaysTold } from "../../model/always-told.ts";
import { declarationCheck } from "../check.ts";
import { withoutLine } from "../edits.ts";
import { example } from "../example.ts";

const role = "  role           pharmacist\n";

export const severityNotAllowed = declarationCheck({
  name: "severity-not-allowed",
  family: "structure",
  severity: "error",
  title: "The site re-grades a finding that always stands",
  why: "What is not read or not followed is checked by nobody else, and a recipe that was read in part would look clean.",
  source: "common practice",
  bad: example([role, `${role}  severity       step-not-understood note\n    because "many old recipes"\n`]),
  good: example([
    role,
    `${role}  severity       look-alike-containers note\n    because "shelves apart, form KQ-12"\n`,
  ]),
  *find({ declaration }) {
    if (declaration.kind !== "site") return;
    for (const fact of declaration.facts.all("severity")) {
      if (alwaysTold.has(fact.slots.check.name)) yield { at: fact.slots.check, fact };
    }
  },
  say: ({ fact: { slots } }) => ({
    text: `\`${slots.check.name}\` tells that something is not read or not followed, so it keeps its grade; \`${slots.level.choice}\` has no effect. Take this line out, and mend what the finding speaks of.`,
  }),
  fixes: ({ fact }, { chunk }) => [{ title: "Take the line out", edits: [withoutLine(chunk.text, fact)] }],
});
