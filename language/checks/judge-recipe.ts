/** Asks the checks of recipes; most of them when the steps were followed, over the range of the order where it has one. */
import { endsOf } from "../bench/order.ts";
import type { OrderPoint } from "../bench/order-rows.ts";
import { type Run, runRecipe } from "../bench/run.ts";
import type { Chunk, Recipe } from "../model/declaration.ts";
import type { Spot } from "../model/slots.ts";
import type { RecipeCheck } from "./check.ts";
import { checkFailed } from "./check-failed.ts";
import { type ChunkFinding, type Surroundings, subjectOf } from "./chunk-finding.ts";
import type { LibraryContext, RecipeContext } from "./context.ts";
import { isForDoseTold } from "./dose-consequences.ts";
import { failure, gather } from "./gather.ts";
import { regrade, silence } from "./grading.ts";
import {
  AskedChecks,
  foundByCheck,
  foundKey,
  type JudgedPiece,
  judgeRange,
  pointsAcross,
  type RangeJudgement,
  type RangeWork,
} from "./over-range.ts";
import { contradiction, figuresOf, overRange } from "./range-finding.ts";
import { allChecks } from "./registry.ts";

const recipeChecks = allChecks.filter((c) => c.on === "recipe");
const writtenChecks = recipeChecks.filter((c) => c.alone);
/** Those that look at what happens on the bench, or at the library. */
const followedChecks = new AskedChecks(recipeChecks.filter((c) => !c.alone));

/** Asks the checks that look at the recipe as it is written. They need no run, and no range alters what they find. */
export function judgeWritten(recipe: Recipe, library: LibraryContext, findings: ChunkFinding[]): void {
  const subject = () => subjectOf(recipe);
  const context = { ...library, recipe };
  for (const check of writtenChecks) gather(check, context, library.chunk, subject, findings, recipe.head);
}

/**
 * @param onRange told how far a range was decided
 * @returns the run by the labels, where the order has no range and the steps could be followed
 */
export function judgeRecipe(
  recipe: Recipe,
  library: LibraryContext,
  around: Surroundings,
  findings: ChunkFinding[],
  onRange: ((recipe: Recipe, range: RangeJudgement) => void) | undefined,
): Run | undefined {
  const subject = () => subjectOf(recipe);
  const plain = new Map<JudgedPiece, RecipeContext>();
  const work = rangeWork(recipe, library, around);
  const { contextOf } = work;
  let range: RangeJudgement | undefined;
  let runs: Run[];
  try {
    range = judgeRange(work);
    runs = range ? runsAt(recipe, pointsAcross(recipe, range), around) : allRuns(recipe, around);
  } catch (error) {
    findings.push(failure("following the steps", error, recipe.head, subject));
    return undefined;
  }
  if (!range) {
    gatherRecipe(followedChecks, contextOf(runs), subject, findings);
    return runs[0];
  }
  onRange?.(recipe, range);
  const across = contextOf(runs, range);
  const keysByCheck = foundByCheck(range);
  for (const check of followedChecks.all) {
    if (check.across) {
      if (runs.length > 0 || check.across === "pieces")
        gather(check, across, library.chunk, subject, findings, recipe.head);
    } else gatherOverRange(check, range, library.chunk, subject, findings, recipe);
  }
  return undefined;

  /** Each fault is shown at the roundest point at which it is met, run on the ordinary bench. */
  function gatherOverRange(
    check: RecipeCheck,
    range: RangeJudgement,
    chunk: Chunk,
    subject: (at: Spot) => string,
    into: ChunkFinding[],
    { head }: Recipe,
  ): void {
    const { axes, pieces } = range;
    for (const key of keysByCheck.get(check.name) ?? []) {
      const failing = pieces.filter((p) => p.result.found.has(key));
      if (isForDoseTold(check, failing, pieces, recipe, around.policy)) continue;
      const shown = failing.reduce((best, p) => (figuresOf(p.point) < figuresOf(best.point) ? p : best));
      const again: ChunkFinding[] = [];
      gather(check, plainContext(shown), chunk, subject, again, head);
      const same = again.filter((f) => f.check === checkFailed || foundKey(check, f.at) === key);
      if (same.length === 0) into.push(contradiction(check.name, axes, shown, head, subject));
      for (const finding of same) into.push({ ...finding, ...overRange(finding.message, range, failing, shown) });
    }
  }

  function plainContext(piece: JudgedPiece): RecipeContext {
    const known = plain.get(piece);
    if (known) return known;
    const made = contextOf(runsAt(recipe, [piece.orderPoint], around), range);
    plain.set(piece, made);
    return made;
  }
}

/** All that judging a recipe over its range takes. */
export function rangeWork(recipe: Recipe, library: LibraryContext, around: Surroundings): RangeWork {
  const namesAt = (point: OrderPoint) => findingNamesAt(point, recipe, library, around);
  return {
    recipe,
    checks: followedChecks,
    runsAt: (point) => runsAt(recipe, [point], around),
    contextOf: (runs, range) => ({
      ...library,
      declaration: recipe,
      recipe,
      run: runs[0]!,
      runs,
      range,
      namesAt,
    }),
  };
}

/** What an example may expect: the findings of its recipe at one point of the order. */
function findingNamesAt(
  point: OrderPoint,
  recipe: Recipe,
  library: LibraryContext,
  around: Surroundings,
): ReadonlySet<string> {
  // Checks across a range (`= 20 mL to 40 mL`, a step that never happens) say nothing of one point in it.
  const isOfRange = ({ check }: ChunkFinding) => point.size > 0 && "across" in check && check.across !== undefined;
  const counted = findingsAt(point, recipe, library, around).filter((f) => !f.silencedBy && !isOfRange(f));
  return new Set(counted.map((f) => f.name));
}

/** The findings of a recipe's own checks at one point of its order, silenced ones marked. Examples themselves are left aside. */
export function findingsAt(
  point: OrderPoint,
  recipe: Recipe,
  library: LibraryContext,
  around: Surroundings,
): ChunkFinding[] {
  const runs = [runRecipe(recipe, around.lookup, around.policy, { point, overfill: "label" })];
  const namesAt = () => new Set<string>();
  const context: RecipeContext = { ...library, declaration: recipe, recipe, run: runs[0]!, runs, namesAt };
  const subject = () => subjectOf(recipe);
  const found: ChunkFinding[] = [];
  gatherRecipe(notAboutExamples, context, subject, found);
  regrade(found, around.policy);
  silence(found, recipe, library.chunk, around);
  return found.filter((f) => around.policy.severities.get(f.name) !== "off");
}

const notAboutExamples = new AskedChecks(recipeChecks.filter((check) => !check.name.startsWith("example-")));

/** What these checks find in a recipe's runs. */
function gatherRecipe(checks: AskedChecks, context: RecipeContext, subject: () => string, into: ChunkFinding[]): void {
  const { chunk, recipe } = context;
  for (const check of checks.for(context.runs)) gather(check, context, chunk, subject, into, recipe.head);
}

/** The runs of an order without ranges; of one with ranges, at their lower ends and at their upper ends. The label run is the first. */
export function allRuns(recipe: Recipe, around: Surroundings): Run[] {
  return runsAt(recipe, endsOf(recipe), around);
}

/** By the label at each point, then with least and with most overfill at each, where a stock declares it. */
function runsAt(recipe: Recipe, points: readonly OrderPoint[], around: Surroundings): Run[] {
  const printed = points.map((point) => runRecipe(recipe, around.lookup, around.policy, { point, overfill: "label" }));
  const runs = [...printed];
  const overfilled = recipe.materials.some((m) => around.lookup.find("stock", m.item.name)?.facts.one("overfill"));
  if (overfilled) {
    for (const overfill of ["least", "most"] as const) {
      for (const byLabel of printed)
        runs.push(
          runRecipe(recipe, around.lookup, around.policy, { point: byLabel.point, overfill, printed: byLabel }),
        );
    }
  }
  return runs;
}
