/** What is said of a range against what is so at each of its weights. */
import type { Fraction } from "../oracle/fraction.ts";
import type { Random } from "../oracle/random.ts";
import { known } from "./compare.ts";
import { atWeight, weightsOf } from "./generate-ranged.ts";
import { judged } from "./judge.ts";
import type { Scenario } from "./scenario.ts";
import { saidOf } from "./spoken-range.ts";
import type { Told } from "./told.ts";
import type { WrittenScenario } from "./written.ts";

export interface RangedDifference {
  differing: string[];
  /** Findings of which the words name no weights. */
  unread: number;
}

/** @param weights at which both are asked */
export function rangedDifferences(
  scenario: Scenario,
  told: readonly Told[],
  { lineOf }: WrittenScenario,
  weights: readonly Fraction[],
): RangedDifference {
  const own = told.filter(({ name }) => known.has(name));
  const said = new Map<string, ((weight: Fraction) => boolean) | undefined>();
  for (const { name, line, finding } of own) {
    const key = `${name} ${line}`;
    const isSaid = finding.overRange ? saidOf(finding.overRange.fails) : () => true;
    const before = said.get(key);
    if (!isSaid || (said.has(key) && !before)) said.set(key, undefined);
    else said.set(key, before ? (weight) => before(weight) || isSaid(weight) : isSaid);
  }
  const notAt = own.flatMap(({ name, line, finding }) => {
    const isSafe = finding.overRange && saidOf(finding.overRange.holds);
    return isSafe ? [{ name, line, isSafe, finding }] : [];
  });
  const isMostlySlip = mostlySlip(scenario);
  const differing: string[] = [];
  for (const weight of weights) {
    const { stands, leavesOpen } = judged(atWeight(scenario, weight));
    const isJudged = (name: string) => known.has(name) && !leavesOpen.has(name) && !(isMostlySlip && !isError(name));
    const wanted = new Set<string>();
    for (const { name, at } of stands) {
      if (!isJudged(name)) continue;
      const keys = at.flatMap((spot) => (lineOf.has(spot) ? [`${name} ${lineOf.get(spot)}`] : []));
      const key = keys.find((each) => said.has(each)) ?? keys[0]!;
      wanted.add(key);
      const isSaid = said.get(key);
      if (!said.has(key)) differing.push(`${key} is not told at all, and is so at ${weight} kg`);
      else if (isSaid && !isSaid(weight)) differing.push(`${key} is not told for ${weight} kg`);
    }
    for (const [key, isSaid] of said)
      if (isSaid?.(weight) && !wanted.has(key) && isJudged(key.split(" ")[0]!))
        differing.push(`${key} is told for ${weight} kg`);
  }
  // What one finding calls safe is safe from that one; its row may be one of several.
  for (const { name, line, isSafe, finding } of notAt) {
    const isSaid = saidOf(finding.overRange!.fails);
    for (const weight of weights)
      if (isSaid?.(weight) && isSafe(weight)) differing.push(`${name} ${line} is and is not so for ${weight} kg`);
  }
  return { differing, unread: [...said.values()].filter((each) => !each).length };
}

/** So many weights of the range at random, its ends, and both sides of every cut between two of them. */
export function asked(scenario: Scenario, random: Random, count = 20): Fraction[] {
  const all = weightsOf(scenario);
  const at = new Set([0, all.length - 1]);
  for (let i = 0; i < count; i++) at.add(random.between(0, all.length - 1));
  const verdicts = new Map<number, string>();
  const verdictAt = (i: number): string => {
    const known = verdicts.get(i);
    if (known !== undefined) return known;
    const { stands } = judged(atWeight(scenario, all[i]!));
    const text = stands.map(({ name, at: spots }) => `${name} ${spots[0]}`).join();
    verdicts.set(i, text);
    return text;
  };
  const sorted = [...at].sort((a, b) => a - b);
  sorted.slice(1).forEach((end, i) => {
    let [low, high] = [sorted[i]!, end];
    if (verdictAt(low) === verdictAt(high)) return;
    while (high - low > 1) {
      const middle = (low + high) >> 1;
      if (verdictAt(middle) === verdictAt(low)) low = middle;
      else high = middle;
    }
    at.add(low).add(high);
  });
  return [...at].sort((a, b) => a - b).map((i) => all[i]!);
}

const isError = (name: string): boolean =>
  ["concentration-above-limit", "concentration-below-limit", "rate-above-limit", "dose-outside-window"].includes(name);

/** A dose that nobody gives for most of the range: warnings of what follows wait until it is mended. */
function mostlySlip(scenario: Scenario): boolean {
  const step = Math.ceil(weightsOf(scenario).length / 20);
  const sample = weightsOf(scenario).filter((_, i) => i % step === 0);
  const some = sample.filter((weight) => judged(atWeight(scenario, weight)).leavesOpen.size > 0);
  // Near to half of it either is right.
  return some.length > sample.length * 0.4;
}
