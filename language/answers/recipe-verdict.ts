/**
 * What stands against a recipe, counted by where it stands, and for which orders of its range. Silent where there is nothing to
 * count: a line that says "none" is read as an all-clear, which no count of findings is.
 */
import type { Finding, JudgedRange, Severity } from "../../shared/finding.ts";
import type { Library, PlacedChunk } from "../library.ts";
import type { Recipe } from "../model/declaration.ts";
import { runsOf } from "./figures.ts";

export interface RecipeVerdict {
  recipe: Recipe;
  chunk: PlacedChunk;
  /** Findings that stand (silenced ones left out). */
  standing: Finding[];
  /** `1 error, 2 warnings`; empty where nothing stands. */
  counted: string;
  /** How far the range of the order was decided; empty for an order without one. */
  range: string;
  /** The order at which the gravest finding of the range is shown, `weight 50 kg`; empty where there is none. */
  shownAt: string;
}

/**
 * The recipes of a file in order of place.
 * @param beside findings of the file that rest on more than the library, such as those about approvals
 */
export function verdictsOf(library: Library, file: string, beside: readonly Finding[] = []): RecipeVerdict[] {
  const findings = [...library.findings(file), ...beside].filter((f) => !f.silenced);
  const ranges = new Map(library.ranges(file).map((r) => [r.recipe, r]));
  return library.chunks(file).flatMap((chunk) => {
    const recipes = chunk.reading.declarations.filter((d): d is Recipe => d.kind === "recipe");
    return recipes.map((recipe) => {
      const standing = findings.filter((f) => concerns(f, recipe, chunk));
      const range = ranges.get(recipe.name.name);
      const shown = standing.filter((f) => f.overRange);
      return {
        recipe,
        chunk,
        standing,
        counted: countedText(standing),
        range: range ? rangeText(library, recipe, range, standing) : "",
        shownAt: (shown.find((f) => f.severity === "error") ?? shown[0])?.overRange?.shownAt ?? "",
      };
    });
  });
}

/** A line that cannot be read has no subject; it counts against every recipe of its stretch of text. */
function concerns({ subject, span }: Finding, recipe: Recipe, { base, text }: PlacedChunk): boolean {
  const isHere = base <= span.start && span.start <= base + text.length;
  return isHere && (subject === "" || subject === `recipe ${recipe.name.name}`);
}

export function countedText(findings: readonly { severity: Severity }[]): string {
  return (["error", "warning", "note"] as const)
    .flatMap((severity) => {
      const count = findings.filter((f) => f.severity === severity).length;
      return count === 0 ? [] : [`${count} ${severity}${count === 1 ? "" : "s"}`];
    })
    .join(", ");
}

/** More stretches than these are not told in a line above a recipe. */
const mostTold = 2;

function rangeText(library: Library, recipe: Recipe, range: JudgedRange, standing: readonly Finding[]): string {
  const told = [
    ...stretches("fails for", standing, "error"),
    ...stretches("warned of for", standing, "warning"),
    ...notDecided(library, recipe, range),
  ];
  if (told.length > 0) return `${range.range}: ${told.join("; ")}`;
  const pieces = `${range.pieces} piece${range.pieces === 1 ? "" : "s"}`;
  // What stands against the range as a whole is counted beside this line; it must not read as "nothing found".
  const rest = standing.some((f) => f.severity !== "note") ? "; findings stand" : "";
  return `${range.range}: every check decided, ${pieces}${rest}`;
}

function stretches(word: string, standing: readonly Finding[], severity: Severity): string[] {
  const all = [
    ...new Set(standing.flatMap((f) => (f.severity === severity && f.overRange ? [f.overRange.fails] : []))),
  ];
  if (all.length === 0) return [];
  if (all.includes("every order")) return [`${word} every order`];
  const more = all.length > mostTold ? ` and ${all.length - mostTold} more ranges` : "";
  return [`${word} ${all.slice(0, mostTold).join(" and ")}${more}`];
}

function notDecided(library: Library, recipe: Recipe, { undecided }: JudgedRange): string[] {
  const [first] = undecided;
  if (first) {
    const more = undecided.length > 1 ? ` and ${undecided.length - 1} more` : "";
    return [`not decided for ${first.where}${more}, because ${first.reason}`];
  }
  const isFollowed = runsOf(library, recipe).every((run) => !run.unknown);
  return isFollowed ? [] : ["not decided, because a step or a figure cannot be followed"];
}
