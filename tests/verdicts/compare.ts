/** Both ways: what must be said and is not, and what is said and must not be. */
import type { Judged } from "./judge.ts";
import type { Verdict } from "./scenario.ts";
import type { Told } from "./told.ts";
import type { WrittenScenario } from "./written.ts";

/** The findings that the judge knows all about. */
export const known: ReadonlySet<string> = new Set([
  "concentration-above-limit",
  "concentration-below-limit",
  "concentration-unusual",
  "rate-above-limit",
  "rate-below-limit",
  "limit-not-compared",
  "dose-outside-window",
  "dose-not-compared",
  "rate-and-time-differ",
  "rate-not-settable",
  "given-longer-than-kept",
  "osmolarity-too-high-for-peripheral",
  "stability-not-covered",
  "use-within-longer-than-stability",
  "use-within-longer-than-policy",
  "diluent-incompatible",
  "drugs-incompatible",
  "compatibility-not-declared",
  "added-in-wrong-order",
  "ions-beyond-solubility",
  "container-material-unsuitable",
  "container-material-not-stated",
  "filter-required-missing",
  "filter-forbidden",
  "in-line-filter-missing",
  "in-line-filter-forbidden",
  "light-protection-missing",
  "lot-expired",
  "lot-expires-soon",
  "lot-expires-before-use-limit",
  "every-lot-expired",
  "opened-too-long",
  "deviation-lapsed",
  "deviation-unused",
  "deviation-not-allowed",
]);

export function differences(
  { stands, silenced, leavesOpen }: Judged,
  told: readonly Told[],
  { lineOf }: WrittenScenario,
): string[] {
  const isJudged = ({ name }: { name: string }) => known.has(name) && !leavesOpen.has(name);
  const own = told.filter(isJudged);
  // Of one dose several windows may be told, or one of them.
  const isDose = ({ name }: { name: string }) => name.startsWith("dose-");
  const again = new Set(
    [...stands, ...silenced].filter(isDose).flatMap(({ name, at }) => at.map((spot) => `${name} ${lineOf.get(spot)}`)),
  );
  return [
    ...apart(
      stands.filter(isJudged),
      own.filter((each) => !each.silenced),
      lineOf,
      again,
      "",
    ),
    ...apart(
      silenced.filter(isJudged),
      own.filter((each) => each.silenced),
      lineOf,
      again,
      "silenced ",
    ),
  ];
}

function apart(
  wanted: readonly Verdict[],
  told: readonly Told[],
  lineOf: WrittenScenario["lineOf"],
  again: ReadonlySet<string>,
  word: string,
): string[] {
  const left = [...told];
  const found: string[] = [];
  for (const { name, at } of wanted) {
    const lines = at.map((spot) => lineOf.get(spot));
    const i = left.findIndex((each) => each.name === name && lines.includes(each.line));
    const isAgain = name.startsWith("dose-") && told.some((each) => each.name === name && lines.includes(each.line));
    if (i >= 0) left.splice(i, 1);
    else if (isAgain) continue;
    else found.push(`${word}${name} is not told at ${at.join(" or ")} (line ${lines.join(" or ")})`);
  }
  return [
    ...found,
    ...left
      .filter(({ name, line }) => !again.has(`${name} ${line}`))
      .map(({ name, line, finding }) => `${word}${name} is told on line ${line}: ${finding.message}`),
  ];
}
