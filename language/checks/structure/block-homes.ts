/** Blocks that are looked for in the wrong place: a recipe's beside the others, not in one of them. */
import { blocksIn, headName } from "../../syntax/blocks.ts";

const ofRecipe: ReadonlySet<string> = new Set(blocksIn("recipe"));

/** Declarations other than recipes that have blocks of their own. */
const withBlocks = ["drug", "stock"];

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

/** What to do with a line or block of this word that stands in `inside`; undefined where the word is no block, or may stand there so. */
export function blockHome(word: string, inside: string): string | undefined {
  const plain = word.toLowerCase();
  const block = otherWords.get(plain) ?? plain;
  if (block === inside) return undefined;
  const isWithin = inside === "recipe" || ofRecipe.has(inside);
  if (isWithin && ofRecipe.has(block)) {
    const lines = block === "label-text" ? ', with each line of the label as `line "TEXT"`' : "";
    return inside === "recipe"
      ? `Write it as a block, ${shown(block)}${lines}.`
      : `It is a block of the recipe: write ${shown(block)} beside \`${inside}\`, not in it${lines}.`;
  }
  const home = withBlocks.find((kind) => blocksIn(kind).includes(block));
  if (home === undefined) return undefined;
  return home === inside
    ? `Write it as a block, ${shown(block)}; \`misce explain ${block}\` lists its lines.`
    : `It is a block of \`${home}\`: write ${shown(block)} there.`;
}

function shown(block: string): string {
  return headName(block) === "" ? `\`${block} { … }\`` : `\`${block} NAME { … }\``;
}
