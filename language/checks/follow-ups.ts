/**
 * One wrong figure can be met by many checks: a powder dissolved in ten times its water is another strength, another draw, another
 * syringe and another dose. Where a recipe has more findings than a reader takes for one slip, it is judged once more with one figure as
 * another one beside it asks; what is then no longer found is told under the finding of that figure, and comes forward by itself should
 * it stay once the figure is mended. So is a name that nothing bears, with the one that is near to it. Nothing is dropped: each place is still told, with its facts.
 */
import { endsOf } from "../bench/order.ts";
import { type Run, runRecipe } from "../bench/run.ts";
import type { Chunk, Recipe } from "../model/declaration.ts";
import { isShownAsError } from "../model/shown-as-error.ts";
import type { Spot } from "../model/slots.ts";
import { type ChunkFinding, type Surroundings, subjectOf } from "./chunk-finding.ts";
import type { LibraryContext } from "./context.ts";
import { failure } from "./gather.ts";
import { type Judged, judgeMended } from "./judge-mended.ts";
import { type Mend, mendsOf } from "./mended-figures.ts";
import { mendedProducts } from "./mended-products.ts";
import { leftOpen } from "./missing-lines.ts";

/** As many findings are read one by one. */
const fewFindings = 3;

/** What a missing line leaves open costs no judging, and stands beneath it sooner. */
const fewBesideMissing = 2;

/** So many figures are tried: each costs the judging of the recipe. */
const mostTried = 2;

/**
 * @param findings all of the chunk, re-graded and silenced, in order of place
 * @param followed the run by the labels, where there is one already
 */
export function foldFollowUps(
  findings: ChunkFinding[],
  recipe: Recipe,
  library: LibraryContext,
  around: Surroundings,
  followed?: Run,
): void {
  const subject = subjectOf(recipe);
  const isStanding = (f: ChunkFinding) => f.subject === subject && isShown(f, around);
  const standing = findings.filter(isStanding);
  if (standing.length <= fewBesideMissing) return;
  try {
    const open = beneathMissing(standing, recipe, library, around);
    for (const f of open) findings.splice(findings.indexOf(f), 1);
    const all = standing.filter((f) => !open.has(f));
    if (all.length <= fewFindings) return;
    for (const f of beneathOthers(all, recipe, library, around, followed)) findings.splice(findings.indexOf(f), 1);
  } catch (error) {
    findings.push(failure("telling what follows from one figure", error, recipe.head, () => subject));
  }
}

function beneathMissing(
  standing: readonly ChunkFinding[],
  recipe: Recipe,
  { chunk, lookup }: LibraryContext,
  { policy }: Surroundings,
): ReadonlySet<ChunkFinding> {
  const beneath = new Set<ChunkFinding>();
  for (const { under, open } of leftOpen(standing, recipe, chunk.text, lookup)) {
    if (policy.known.get(recipe.name.name)?.has(under.name)) continue;
    under.related.push(
      { at: { ...under.at, chunk }, text: "What is missing here leaves this open:" },
      ...told(open, chunk),
    );
    for (const f of open) beneath.add(f);
  }
  return beneath;
}

/** Each with its place and its facts. */
function told(findings: readonly ChunkFinding[], chunk: Chunk): ChunkFinding["related"] {
  return findings.map(({ at, message }) => ({ at: { ...at, chunk }, text: firstSentence(message) }));
}

function beneathOthers(
  all: readonly ChunkFinding[],
  recipe: Recipe,
  library: LibraryContext,
  around: Surroundings,
  followed: Run | undefined,
): ReadonlySet<ChunkFinding> {
  const beneath = new Set<ChunkFinding>();
  // What others stand beneath stays where it is.
  const settled = new Set<ChunkFinding>();
  let tried = 0;
  for (const mend of likely(recipe, all, around, followed ?? firstRun(recipe, around))) {
    if (tried++ === mostTried || all.length - beneath.size <= fewFindings) break;
    const mended = judgeMended(mend, library, around);
    const gone = mended ? goneBy(mended, all, library, around) : [];
    const free = gone.filter((f) => !settled.has(f) && !beneath.has(f));
    for (const f of fold(free, mend, recipe, library, around, settled)) beneath.add(f);
  }
  return beneath;
}

function isShown({ name, severity, silencedBy }: ChunkFinding, { policy }: Surroundings): boolean {
  return !silencedBy && severity !== "note" && policy.severities.get(name) !== "off";
}

function firstRun(recipe: Recipe, { lookup, policy }: Surroundings): Run {
  const [point] = endsOf(recipe);
  return runRecipe(recipe, lookup, policy, { point: point!, overfill: "label" });
}

interface Likely extends Mend {
  /** The finding that says so. */
  by?: ChunkFinding;
}

function likely(recipe: Recipe, standing: readonly ChunkFinding[], around: Surroundings, run: Run): readonly Likely[] {
  // A figure that the site or a deviation lets stand is not the one to mend.
  return [
    ...ofNames(standing),
    ...ofRemedies(standing),
    ...mendedProducts(run, around.lookup),
    ...mendsOf(run, around.lookup),
  ].filter(({ told }) => isShownAsError(told, recipe, around.policy));
}

const wrongWords = new Set(["unknown-name", "unknown-thing", "unknown-verb"]);

/** A word that nothing bears, and those that are near to it. */
function* ofNames(standing: readonly ChunkFinding[]): Generator<Likely> {
  for (const by of standing) {
    if (!wrongWords.has(by.name)) continue;
    for (const { edits } of by.fixes) yield* ofFix(by, edits);
  }
}

function* ofFix(by: ChunkFinding, [first, ...others]: ChunkFinding["fixes"][number]["edits"]): Generator<Likely> {
  if (first && others.every(({ text }) => text === first.text))
    yield { at: first.at, text: first.text, also: others.map(({ at }) => at), told: by.name, by };
}

/** A limit that is told as too long is what the finding itself says to write. */
function ofRemedies(standing: readonly ChunkFinding[]): Mend[] {
  return ["use-within-longer-than-stability", "use-within-longer-than-policy"].flatMap((name) =>
    standing
      .filter((f) => f.name === name)
      .flatMap(({ fixes }) => fixes.flatMap(({ edits }) => edits.map(({ at, text }) => ({ at, text, told: name })))),
  );
}

/** What is not found with the figure mended; none of it where that breaks something else: another figure was meant. */
function goneBy(
  mended: Judged,
  all: readonly ChunkFinding[],
  { chunk }: LibraryContext,
  around: Surroundings,
): readonly ChunkFinding[] {
  const before = new Set(all.map((f) => keyOf(f, chunk.text)));
  const after = new Set(mended.findings.filter((f) => isShown(f, around)).map((f) => keyOf(f, mended.text)));
  if ([...after].some((key) => !before.has(key))) return [];
  return all.filter((f) => f.check.on === "recipe" && !after.has(keyOf(f, chunk.text)));
}

/** @returns what now stands beneath another finding */
function fold(
  gone: readonly ChunkFinding[],
  mend: Likely,
  recipe: Recipe,
  { chunk }: LibraryContext,
  { policy }: Surroundings,
  settled: Set<ChunkFinding>,
): readonly ChunkFinding[] {
  const kept = mend.by ? [mend.by, ...gone.filter(isOfDose)] : keptOf(gone, mend, chunk.text);
  const under = mend.by ?? kept.find(isError) ?? kept[0];
  const known = policy.known.get(recipe.name.name);
  const folded = gone.filter((f) => !kept.includes(f));
  if (!under || folded.length === 0 || kept.some((f) => known?.has(f.name))) return [];
  under.related.push(
    { at: { ...mend.at, chunk: mend.stock?.chunk ?? chunk }, text: `${mend.text} here would leave none of these:` },
    ...told(folded, chunk),
  );
  for (const f of kept) settled.add(f);
  return folded;
}

/**
 * What stays a finding of its own: the one at the figure, the one that says what the figure should be, an error where neither is one, and
 * what it means for the patient.
 */
function keptOf(gone: readonly ChunkFinding[], mend: Mend, text: string): ChunkFinding[] {
  const line = mend.stock ? undefined : lineOf(text, mend.at);
  const here = gone.filter((f) => lineOf(text, f.at) === line);
  const teller = (from: readonly ChunkFinding[]) => from.find(({ name }) => name === mend.told);
  const figure = teller(here) ?? here.find((f) => isError(f) && meets(f.at, mend.at)) ?? here.find(isError) ?? here[0];
  const reason = teller(here) ?? teller(gone);
  const error = [figure, reason].some((f) => f && isError(f)) ? undefined : (here.find(isError) ?? gone.find(isError));
  const dose = gone.find(isOfDose);
  return [...new Set([figure, reason, error, dose])].filter((f) => f !== undefined).slice(0, fewFindings);
}

/** What it means for the patient. */
function isOfDose({ name }: ChunkFinding): boolean {
  return name === "dose-not-delivered";
}

function meets(one: Spot, other: Spot): boolean {
  return one.start < other.end && other.start < one.end;
}

function isError({ severity }: ChunkFinding): boolean {
  return severity === "error";
}

/** The facts; what to do about them is told once the figure is mended and they are still there. */
function firstSentence(message: string): string {
  const end = message.search(/\. [A-Z]/);
  return end < 0 ? message : message.slice(0, end + 1);
}

/** The mended figure may be longer or shorter, but stands in the same line. */
function keyOf({ name, at }: ChunkFinding, text: string): string {
  return `${name} ${lineOf(text, at)}`;
}

function lineOf(text: string, { start }: Spot): number {
  return text.slice(0, start).split("\n").length;
}
