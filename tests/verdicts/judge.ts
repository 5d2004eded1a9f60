/** Everything that must be said of a scenario, deviations and the site's own grading included. */
import { givingVerdicts, osmolarityVerdicts } from "./judge-giving.ts";
import { limitVerdicts } from "./judge-limits.ts";
import { stabilityVerdicts } from "./judge-stability.ts";
import { dayOf, stockVerdicts } from "./judge-stock.ts";
import type { Scenario, Verdict } from "./scenario.ts";

export const judgedBeforeDeviations = (scenario: Scenario): Verdict[] => [
  ...limitVerdicts(scenario),
  ...givingVerdicts(scenario),
  ...osmolarityVerdicts(scenario),
  ...stabilityVerdicts(scenario),
  ...stockVerdicts(scenario),
];

export interface Judged {
  stands: Verdict[];
  silenced: Verdict[];
  /** A dose that nobody would give is told as an error: of what follows from it nothing need be told beside it. */
  leavesOpen: ReadonlySet<string>;
}

export const behindDose: ReadonlySet<string> = new Set([
  "concentration-above-limit",
  "concentration-below-limit",
  "concentration-unusual",
  "rate-above-limit",
  "rate-below-limit",
  "osmolarity-too-high-for-peripheral",
  "stability-not-covered",
  "dose-not-compared",
]);

/** A deviation silences the one finding of its name, until its last day and with it; never what the site lets nobody silence. */
export function judged(scenario: Scenario): Judged {
  const { site, deviations, asOf } = scenario;
  const off = new Set(site.severity.flatMap(({ name, grade }) => (grade === "off" ? [name] : [])));
  const stands = judgedBeforeDeviations(scenario).filter(({ name }) => !off.has(name));
  const silenced: Verdict[] = [];
  for (const [i, { name, on, until }] of deviations.entries()) {
    const at = [`deviation ${i}`];
    const own = stands.filter((each) => each.name === name && (on === undefined || isAt(each, on)));
    if (site.neverSilenced.includes(name)) stands.push({ name: "deviation-not-allowed", at });
    else if (dayOf(until) < dayOf(asOf)) stands.push({ name: "deviation-lapsed", at: [`until ${i}`] });
    else if (own.length === 0) stands.push({ name: "deviation-unused", at });
    else if (own.length > 1) throw new RangeError(`a deviation of ${own.length} findings`);
    else {
      stands.splice(stands.indexOf(own[0]!), 1);
      silenced.push(own[0]!);
    }
  }
  for (const { of } of shownLimits(scenario, stands))
    stands.splice(
      0,
      stands.length,
      ...stands.filter((each) => each.name !== "concentration-unusual" || each.of !== of),
    );
  const isGradedDown = site.severity.some(({ name, grade }) => name === "dose-outside-window" && grade !== "error");
  const isTold = !isGradedDown && stands.some(({ name }) => name === "dose-outside-window");
  return { stands, silenced, leavesOpen: isTold ? behindDose : new Set() };
}

/** Its step names the thing, or it stands in that thing's own block. */
function isAt({ at: [spot = ""] }: Verdict, on: string): boolean {
  const [, drug] = /^(?:inject|draw)(?: again)? (.*)$/.exec(spot) ?? [];
  if (drug !== undefined) return on === `${drug}-syringe`;
  return on === "bag" && (spot.startsWith("use-within ") || spot === "preparation");
}

/** Limits of strength that stand as errors: that such a strength is unusual too is not told beside them. */
function shownLimits({ site, deviations }: Scenario, stands: readonly Verdict[]): Verdict[] {
  return stands.filter(
    ({ name }) =>
      (name === "concentration-above-limit" || name === "concentration-below-limit") &&
      !deviations.some((deviation) => deviation.name === name) &&
      !site.severity.some((each) => each.name === name && each.grade !== "error"),
  );
}
