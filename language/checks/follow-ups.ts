/**
 * One wrong figure can be met by many checks: a powder dissolved in ten times its water is another strength, another draw, another
 * syringe and another dose. Where a recipe has more findings than a reader takes for one slip, it is judged once more with one figure as
 * another one beside it asks; what is then no longer found is told under the finding of that figure, and comes forward by itself should
 * it stay once the figure is mended. Nothing is dropped: each place keeps its words.
 */
import { endsOf } from "../bench/order.ts";
import { runRecipe } from "../bench/run.ts";
import type { Recipe } from "../model/declaration.ts";
import type { Spot } from "../model/slots.ts";
import { type ChunkFinding, type Surroundings, subjectOf } from "./chunk-finding.ts";
import type { LibraryContext } from "./context.ts";
import { type Judged, judgeMended } from "./judge-mended.ts";
import { type Mend, mendsOf } from "./mended-figures.ts";

/** As many findings are read one by one. */
const fewFindings = 3;

/** So many figures are tried: each costs the judging of the recipe. */
const mostTried = 2;

/** @param findings all of the chunk, re-graded and silenced */
export function foldFollowUps(
  findings: ChunkFinding[],
  recipe: Recipe,
  library: LibraryContext,
  around: Surroundings,
): void {
  const subject = subjectOf(recipe);
  const standing = () =>
    findings.filter((f) => f.subject === subject && !f.silencedBy && f.severity !== "note" && isGraded(f, around));
  if (standing().length <= fewFindings) return;
  let tried = 0;
  for (const mend of likely(recipe, standing(), around)) {
    if (tried++ === mostTried) return;
    const mended = judgeMended(mend, library, around);
    if (mended) fold(findings, standing(), mend, mended, recipe, library, around);
    if (standing().length <= fewFindings) return;
  }
}

function isGraded({ name }: ChunkFinding, { policy }: Surroundings): boolean {
  return policy.severities.get(name) !== "off";
}

function likely(recipe: Recipe, standing: readonly ChunkFinding[], around: Surroundings): readonly Mend[] {
  const [point] = endsOf(recipe);
  const run = runRecipe(recipe, around.lookup, around.policy, { point: point!, overfill: "label" });
  return [...ofRemedies(standing), ...mendsOf(run, around.lookup)];
}

/** A limit that is told as too long is what the finding itself says to write. */
function ofRemedies(standing: readonly ChunkFinding[]): Mend[] {
  return ["use-within-longer-than-stability", "use-within-longer-than-policy"].flatMap((name) =>
    standing
      .filter((f) => f.name === name)
      .flatMap(({ fixes }) => fixes.flatMap(({ edits }) => edits.map(({ at, text }) => ({ at, text })))),
  );
}

function fold(
  findings: ChunkFinding[],
  standing: readonly ChunkFinding[],
  mend: Mend,
  mended: Judged,
  recipe: Recipe,
  { chunk }: LibraryContext,
  { policy }: Surroundings,
): void {
  const before = new Set(standing.map((f) => keyOf(f, chunk.text)));
  const after = new Set(
    mended.findings
      .filter((f) => !f.silencedBy && f.severity !== "note" && policy.severities.get(f.name) !== "off")
      .map((f) => keyOf(f, mended.text)),
  );
  // Another figure that breaks something else is not the one that was meant.
  if ([...after].some((key) => !before.has(key))) return;
  const gone = standing.filter((f) => f.check.on === "recipe" && !after.has(keyOf(f, chunk.text)));
  const root = rootOf(gone, mend, chunk.text);
  if (!root || policy.known.get(recipe.name.name)?.has(root.name)) return;
  // What is an error is told under an error: the figure's own finding may be a warning.
  const gravest = root.severity === "error" ? root : gone.find((f) => f.severity === "error");
  const under = gravest ?? root;
  if (policy.known.get(recipe.name.name)?.has(under.name)) return;
  const folded = gone.filter((f) => f !== root && f !== under);
  if (folded.length === 0) return;
  under.related.push(
    ...folded.flatMap((f) => [{ at: { ...f.at, chunk }, text: `Follows from it: ${f.message}` }, ...f.related]),
  );
  for (const f of folded) findings.splice(findings.indexOf(f), 1);
}

/** The finding at the figure itself, the gravest of several; where there is none, the first that is an error. */
function rootOf(gone: readonly ChunkFinding[], mend: Mend, text: string): ChunkFinding | undefined {
  const line = mend.stock ? undefined : lineOf(text, mend.at);
  const here = gone.filter(({ at }) => lineOf(text, at) === line);
  return here.find((f) => f.severity === "error") ?? here[0] ?? gone.find((f) => f.severity === "error");
}

/** The mended figure may be longer or shorter, but stands in the same line. */
function keyOf({ name, at }: ChunkFinding, text: string): string {
  return `${name} ${lineOf(text, at)}`;
}

function lineOf(text: string, { start }: Spot): number {
  return text.slice(0, start).split("\n").length;
}
