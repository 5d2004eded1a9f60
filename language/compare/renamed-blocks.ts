/**
 * Blocks of a recipe that bear another name and say about the same: a worked example under another title, an intermediate called
 * otherwise. Told as gone and come, their figures would be laid beside nothing.
 */
import { canonicalJson } from "./canonical.ts";
import type { FactMeaning } from "./meaning.ts";

/** Old label → new label, such as `example "adult of 60 kg"`: blocks of one sort of which at least half is the same. */
export function renamedBlocks(before: readonly FactMeaning[], after: readonly FactMeaning[]): Map<string, string> {
  const [was, is] = [namedBlocks(before), namedBlocks(after)];
  const come = new Map([...is].filter(([label]) => !was.has(label)));
  const renamed = new Map<string, string>();
  const gone = [...was].filter(([label]) => !is.has(label));
  // The likest pair first, so that one that changed does not take the place of one that did not.
  const pairs = gone
    .flatMap(([label, said]) =>
      [...come].map(([other, its]) => ({ label, other, share: alike(label, other, said, its) })),
    )
    .filter(({ share }) => share >= 0.5)
    .sort((a, b) => b.share - a.share);
  for (const { label, other } of pairs) {
    if (renamed.has(label) || !come.delete(other)) continue;
    renamed.set(label, other);
  }
  return renamed;
}

/** The facts as the other side calls their blocks. */
export function inNewBlocks(
  facts: readonly FactMeaning[],
  renamed: ReadonlyMap<string, string>,
): readonly FactMeaning[] {
  if (renamed.size === 0) return facts;
  return facts.map((fact) => {
    const block = renamed.get(fact.block);
    return block === undefined ? fact : { ...fact, block, key: canonicalJson([block, fact.word, fact.value]) };
  });
}

/** By label what the facts of a block say; the head of a named block is a fact without a word. */
function namedBlocks(facts: readonly FactMeaning[]): Map<string, string[]> {
  const blocks = new Map<string, string[]>();
  for (const { block, word, isRead } of facts) if (word === "" && isRead) blocks.set(block, []);
  for (const { block, word, value } of facts) if (word !== "") blocks.get(block)?.push(canonicalJson([word, value]));
  return blocks;
}

/** Share of what both say in what the longer of them says; zero for blocks of different sorts. */
function alike(label: string, other: string, said: readonly string[], its: readonly string[]): number {
  if (label.split(" ")[0] !== other.split(" ")[0]) return 0;
  const spare = [...its];
  const common = said.filter((each) => {
    const at = spare.indexOf(each);
    if (at >= 0) spare.splice(at, 1);
    return at >= 0;
  });
  return common.length / Math.max(1, said.length, its.length);
}
