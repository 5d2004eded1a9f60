/** Blocks that are looked for in the wrong place: a recipe's beside the others, not in one of them. */
import { blocksIn } from "../../syntax/blocks.ts";

const ofRecipe: ReadonlySet<string> = new Set(blocksIn("recipe"));

/** Other words for a block, as authors write them. */
const otherWords: ReadonlyMap<string, string> = new Map([
  ["label", "label-text"],
  ["labels", "label-text"],
  ["label-line", "label-text"],
  ["label-lines", "label-text"],
  ["labeltext", "label-text"],
  ["labelling", "label-text"],
  ["procedure", "steps"],
  ["method-of-preparation", "steps"],
  ["ingredients", "materials"],
]);

/** What to do with a line or block of this word that stands in `inside`; undefined where the word is no block of a recipe. */
export function blockHome(word: string, inside: string): string | undefined {
  const plain = word.toLowerCase();
  const block = otherWords.get(plain) ?? plain;
  const isWithin = inside === "recipe" || ofRecipe.has(inside);
  if (!isWithin || !ofRecipe.has(block) || block === inside) return undefined;
  const name = block === "preparation" || block === "intermediate" ? `${block} NAME` : block;
  const lines = block === "label-text" ? ', with each line of the label as `line "TEXT"`' : "";
  return inside === "recipe"
    ? `Write it as a block, \`${name} { … }\`${lines}.`
    : `It is a block of the recipe: write \`${name} { … }\` beside \`${inside}\`, not in it${lines}.`;
}
