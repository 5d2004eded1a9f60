import { findingsCheck } from "../check.ts";
import type { FindingsContext } from "../context.ts";
import { deviationHolds } from "../deviations.ts";
import { dosesTold, restsOnDose } from "../dose-consequences.ts";
import { withoutLine } from "../edits.ts";
import { example } from "../example.ts";

export const deviationUnused = findingsCheck({
  name: "deviation-unused",
  family: "structure",
  severity: "warning",
  title: "A deviation from a finding that is not there",
  why: "An exception that is no longer needed would hide the next fault of its kind unseen.",
  source: "common practice",
  bad: example([
    "  preparation bag {",
    '  deviation glass-not-filtered on bag\n    because "form KQ-118"\n    by aseptic-lead\n    until 2027-03-31\n\n  preparation bag {',
  ]),
  good: example(),
  *find({ recipe, findings, checkNames, policy, asOf }) {
    for (const deviation of recipe.deviations) {
      const name = deviation.check.name;
      // Unknown, lapsed, incomplete and forbidden ones are told by checks of their own.
      if (!checkNames.has(name) || policy.neverSilenced.has(name)) continue;
      if (!deviationHolds(deviation, { policy, asOf }) || findings.some((f) => f.silencedBy === deviation)) continue;
      if (mayBeLeftOut(name, findings)) continue;
      const elsewhere = findings.filter((f) => f.name === name && !f.silencedBy).length;
      yield { at: deviation.check, deviation, name, on: deviation.on?.name, elsewhere };
    }
  },
  say({ name, on, elsewhere }) {
    const where = on === undefined ? "in this recipe" : `on ${on}`;
    const other =
      elsewhere > 0 ? ` It is found ${elsewhere === 1 ? "once" : `${elsewhere} times`} at another place.` : "";
    return {
      text: `This deviation silences \`${name}\` ${where}, but it is not found there.${other} Take the deviation out, or name the place that is meant.`,
    };
  },
  fixes: ({ deviation }, { chunk }) => [
    { title: "Take the deviation out", edits: [withoutLine(chunk.text, deviation)] },
  ],
});

/** What another finding repeats more gravely is left out, and comes back with that one mended: its deviation is still needed. */
function mayBeLeftOut(name: string, findings: FindingsContext["findings"]): boolean {
  const isToldOf = (each: string) =>
    findings.some((f) => f.name === each && f.severity === "error" && f.silencedBy === undefined);
  if (name === "concentration-unusual" && limitsOfStrength.some(isToldOf)) return true;
  return (restsOnDose.has(name) || alsoOnDose.has(name)) && dosesTold.some(isToldOf);
}

/** Where the strength or the window of a wrong dose is all that does not fit. */
const alsoOnDose: ReadonlySet<string> = new Set(["stability-not-covered", "dose-not-compared"]);

const limitsOfStrength = ["concentration-above-limit", "concentration-below-limit"] as const;
