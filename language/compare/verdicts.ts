/** What the checks say on both sides: findings that came, went, or say something else, and the range of an order that is safe. */
import type { Verdict } from "../../shared/comparison.ts";
import { type Finding, severities } from "../../shared/finding.ts";
import type { RangeJudgement } from "../checks/over-range.ts";
import { checkByName } from "../checks/registry.ts";
import { rangeNotDecided } from "../checks/structure/range-not-decided.ts";
import type { Library } from "../library.ts";
import type { Interval } from "../proof/interval.ts";
import { restOf, safeStretchesText } from "../proof/range-text.ts";
import { grouped } from "./pair-statements.ts";

/** @param before findings of one subject, silenced ones included; @param after the same on the other side */
export function verdicts(before: readonly Finding[], after: readonly Finding[]): Verdict[] {
  const pairs: [Finding, Finding][] = [];
  let left = [...before];
  let right = [...after];
  // The same words, then the same line of the text, then the same check.
  for (const keyOf of [sameWords, samePlace, sameCheck]) {
    const open = grouped(right, keyOf);
    left = left.filter((finding) => {
      const twin = open.get(keyOf(finding))?.shift();
      if (twin) pairs.push([finding, twin]);
      return !twin;
    });
    right = [...open.values()].flat();
  }
  return [
    ...right.map((f) => verdict(f.silenced ? "silenced now" : "appeared", f, "", f.message)),
    ...left
      .map((f) => verdict(f.silenced ? "no longer silenced" : "went", f, f.message, ""))
      .filter((v) => v.how !== "no longer silenced"),
    ...pairs.flatMap(([was, is]) => changed(was, is)),
  ].sort((a, b) => severities.indexOf(a.severity) - severities.indexOf(b.severity) || (a.name < b.name ? -1 : 1));
}

const sameWords = (f: Finding) => JSON.stringify([f.name, f.message]);
const samePlace = (f: Finding) => JSON.stringify([f.name, f.anchor]);
const sameCheck = (f: Finding) => f.name;

function changed(was: Finding, is: Finding): Verdict[] {
  const found: Verdict[] = [];
  if (!was.silenced && is.silenced) found.push(verdict("silenced now", is, was.message, is.message));
  if (was.silenced && !is.silenced) found.push(verdict("no longer silenced", is, was.message, is.message));
  const [rankWas, rankIs] = [was, is].map((f) => severities.indexOf(f.severity)) as [number, number];
  if (rankIs < rankWas)
    found.push(verdict("graver", is, `${was.severity}: ${was.message}`, `${is.severity}: ${is.message}`));
  if (rankIs > rankWas)
    found.push(verdict("less grave", is, `${was.severity}: ${was.message}`, `${is.severity}: ${is.message}`));
  if (found.length === 0 && was.message !== is.message)
    found.push(verdict("says otherwise", is, was.message, is.message));
  return found;
}

function verdict(how: Verdict["how"], { name, severity }: Finding, before: string, after: string): Verdict {
  return { how: proofs[`${how} ${name}`] ?? how, name, severity, before, after };
}

/** A part of the range for which nothing could be decided is told as what it is. */
const proofs: { [key: string]: Verdict["how"] } = {
  [`appeared ${rangeNotDecided.name}`]: "proof lost",
  [`went ${rangeNotDecided.name}`]: "proof won",
};

export interface SafeRange {
  range: RangeJudgement;
  /** Checks whose findings a deviation silences in this recipe. */
  silenced: ReadonlySet<string>;
  library: Library;
}

/** Whether the orders without an error became fewer or more. Only for an order with one range; with several, the findings say it. */
export function safeRangeVerdict(before: SafeRange, after: SafeRange): Verdict[] {
  const [was, is] = [safeStretches(before), safeStretches(after)];
  if (!was || !is || was.text === is.text) return [];
  // Stretches are compared in the units of their own axes; both count kg, m2, years or mL as the recipe writes them.
  const lost = was.safe.some((s) => !covered(s, is.safe));
  const won = is.safe.some((s) => !covered(s, was.safe));
  if (!lost && !won) return [];
  const how = lost && won ? "safe range differs" : lost ? "safe range narrower" : "safe range wider";
  return [{ how, name: "", severity: lost ? "warning" : "note", before: was.text, after: is.text }];
}

function safeStretches({ range, silenced, library }: SafeRange): { safe: Interval[]; text: string } | undefined {
  const [axis, ...others] = range.axes;
  if (!axis || others.length > 0) return undefined;
  const { policy } = library.surroundings();
  const isError = (key: string) => {
    const name = key.split(" ")[0]!;
    return !silenced.has(name) && (policy.severities.get(name) ?? checkByName.get(name)?.severity) === "error";
  };
  const unsafe = range.pieces
    .filter((p) => !p.result.ordered || [...p.result.found].some(isError))
    .map((p) => p.box[0]!)
    .concat(range.undecided.map((u) => u.box[0]!));
  const safe = restOf(axis, unsafe);
  const factor = axis.unit.factor;
  const inBase = safe.map((s) => ({ ...s, low: s.low.times(factor), high: s.high.times(factor) }));
  return { safe: inBase, text: safe.length === 0 ? "none" : safeStretchesText(axis, safe) };
}

/** Within one stretch of the others. */
function covered(stretch: Interval, others: readonly Interval[]): boolean {
  return others.some((other) => {
    const low = other.low.compare(stretch.low);
    const high = other.high.compare(stretch.high);
    return (
      (low < 0 || (low === 0 && (other.lowIn || !stretch.lowIn))) &&
      (high > 0 || (high === 0 && (other.highIn || !stretch.highIn)))
    );
  });
}
