/** Lines of the label stand on every finished container: in a series a strength that fits one is wrong on the others. */
import type { Run } from "../../bench/run.ts";
import type { Vessel } from "../../bench/things.ts";
import type { Recipe } from "../../model/declaration.ts";
import { type Quantity, showQuantity } from "../../quantities/quantity.ts";
import type { TextFigure } from "./figures-in-text.ts";
import type { Contradiction } from "./words-against-order.ts";

/**
 * @param strengths what a recipe with these finished containers alone makes, in the unit of the figure
 * @param isThat whether the figure is that strength
 */
export function wrongOnAnother(
  figure: TextFigure,
  text: string,
  recipe: Recipe,
  runs: readonly Run[],
  strengths: (recipe: Recipe, runs: readonly Run[]) => readonly Quantity[],
  isThat: (known: Quantity, figure: Quantity) => boolean,
): Contradiction | undefined {
  const [run] = runs;
  if (!run || run.finalNames.size < 2 || namesOne(text, run)) return undefined;
  const others: { name: string; known: Quantity }[] = [];
  for (const name of run.finalNames) {
    const of = { ...recipe, preparations: recipe.preparations.filter((p) => p.name.name === name) };
    const known = strengths(
      of,
      runs.map((each) => ({ ...each, finals: each.finals.filter(isNamed(name)) })),
    );
    const [first] = known;
    if (first && !known.some((each) => isThat(each, figure.quantity))) others.push({ name, known: first });
  }
  // A line that gives each strength of the series is a table of it.
  const other = others.find(({ known }) => !text.includes(showQuantity(known, 4)));
  if (!other) return undefined;
  const ordered = `${showQuantity(other.known, 4)} in ${other.name}, whose label bears the line too`;
  return { said: figure.written, ordered, whole: "recipe" };
}

function isNamed(name: string): (vessel: Vessel) => boolean {
  return (vessel) => vessel.name === name;
}

/** `Strong: 30 mg/mL` tells the container of which it speaks. */
function namesOne(text: string, { finalNames }: Run): boolean {
  const words = text.toLowerCase();
  return [...finalNames].some((name) => words.includes(name.replaceAll("-", " ").toLowerCase()));
}
