/** Which block stands in which, what its head needs behind its word, and how well a line fits into it. */
import type { TokenKind } from "./tree.ts";
import { declarationWords, factsByBlock, recipeBlocks, trailingWords, verbs } from "./words.ts";

/** A block of no known kind; what stands in it is not read. */
export const unknownBlock = "?";
/** Outside every declaration. */
export const outside = "";

const none: readonly string[] = [];
const inside: Readonly<Record<string, readonly string[]>> = {
  [outside]: declarationWords,
  recipe: recipeBlocks.filter((word) => word !== "deviation"),
  drug: ["stable"],
  stock: ["reconstitute"],
  steps: ["only"],
  only: ["only"],
};

/** Kinds of blocks that may stand in a block of this kind. */
export function blocksIn(kind: string): readonly string[] {
  return Object.hasOwn(inside, kind) ? inside[kind]! : none;
}

/** May stand once in its declaration. */
export const onceOnly: ReadonlySet<string> = new Set(["order", "materials", "steps", "label-text", "reconstitute"]);

/** What stands behind the word of a head: nothing, a name, a text; `only` takes a condition of any length. */
const behind: Readonly<Record<string, "" | "word" | "string">> = {
  site: "",
  order: "",
  materials: "",
  steps: "",
  "label-text": "",
  stable: "",
  reconstitute: "",
  example: "string",
};

/** What stands behind the word of a head of this kind: nothing, a name (`word`) or a text (`string`). */
export function headName(kind: string): "" | "word" | "string" {
  return Object.hasOwn(behind, kind) ? behind[kind]! : "word";
}

export interface WrittenToken {
  kind: TokenKind;
  /** In lower case. */
  word: string;
}

/** Whether what is written behind the word of a head is what a block of this kind has there. */
export function isHeadOf(kind: string, tokens: readonly WrittenToken[]): boolean {
  if (kind === "only") return tokens.length > 1;
  if (tokens.length > 2) return false;
  return (tokens[1]?.kind ?? "") === headName(kind);
}

/** Whether the first word of a line may be what is left of, or became, the word of a head. */
export function isPartOf(kind: string, { word }: WrittenToken): boolean {
  return word.length > 1 && (kind.startsWith(word) || word.startsWith(kind));
}

export const isTrailing: ReadonlySet<string> = new Set<string>(trailingWords);
const steps: ReadonlySet<string> = new Set<string>(verbs);
const facts = new Map(Object.entries(factsByBlock).map(([kind, words]) => [kind, new Set(words)]));
const orderFacts = facts.get("order")!;

export type Fit =
  | "fits"
  | "doubtful" // could be meant, but speaks rather for another block
  | "misfit";

/** Whether a line is one of such a block, by its first words alone. */
export function fitOf(kind: string, tokens: readonly WrittenToken[]): Fit {
  const [first, second] = tokens;
  if (first?.kind !== "word") return kind === unknownBlock ? "doubtful" : "misfit";
  if (kind === unknownBlock) return "doubtful";
  if (kind === outside) return "misfit";
  if (kind === "steps" || kind === "only") return steps.has(first.word) ? "fits" : "misfit";
  if (isTrailing.has(first.word)) return "fits";
  if (kind === "materials") {
    if (second?.kind !== "word" && second?.kind !== "number") return "misfit";
    return steps.has(first.word) || orderFacts.has(first.word) ? "doubtful" : "fits";
  }
  if (kind === "recipe" && first.word === "deviation") return "fits";
  return facts.get(kind)?.has(first.word) === true ? "fits" : "misfit";
}
