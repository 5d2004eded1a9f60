import { declarationCheck } from "../check.ts";
import { example } from "../example.ts";

const role = "  role           pharmacist\n";

export const severityWithoutReason = declarationCheck({
  name: "severity-without-reason",
  family: "structure",
  severity: "warning",
  title: "The site re-grades a finding and does not say why",
  why: "It reaches every recipe of the library; whoever reviews it has to know the reason.",
  source: "common practice",
  bad: example([role, `${role}  severity       look-alike-containers note\n`]),
  good: example([
    role,
    `${role}  severity       look-alike-containers note\n    because "shelves apart, form KQ-12"\n`,
  ]),
  *find({ declaration }) {
    if (declaration.kind !== "site") return;
    for (const { slots, because } of declaration.facts.all("severity")) {
      if (!because?.text.trim()) yield { at: slots.check, name: slots.check.name, level: slots.level.choice };
    }
  },
  say: ({ name, level }) => ({
    text: `\`${name}\` is ${level === "off" ? "switched off" : `graded as ${level}`} for the whole library, without a reason. Add \`because\` with the reason below it.`,
  }),
});
