/** What a check says of every member of a set in the same words is said once, of each of them: ten findings at one word hide the next. */
import type { ChunkFinding } from "./chunk-finding.ts";

/** `bags 2 of 4`, as `thingName` writes a member of a set. */
const member = /(?<![\p{L}\p{N}-])(\p{L}[\p{L}\p{N}-]*) (\d+) of (\d+)(?!\.?\p{N})/gu;

/**
 * The findings of one check in their order, those that differ in nothing but the member of a set taken together where all its members are
 * told. Of some members alone each is named.
 */
export function toldOfSets(findings: readonly ChunkFinding[]): ChunkFinding[] {
  if (findings.length < 2) return [...findings];
  const alike = new Map<string, ChunkFinding[]>();
  for (const finding of findings) {
    const key = `${finding.at.start}:${finding.at.end}:${finding.message.replace(member, "$1 of $3")}`;
    const same = alike.get(key);
    if (same) same.push(finding);
    else alike.set(key, [finding]);
  }
  return [...alike.values()].flatMap((same) => (isWholeSet(same) ? [ofEach(same[0]!)] : same));
}

function isWholeSet(same: readonly ChunkFinding[]): boolean {
  const told = same.map(({ message }) => [...message.matchAll(member)][0]);
  const [first] = told;
  if (!first || same.length < 2) return false;
  return new Set(told.map((each) => each?.[2])).size === Number(first[3]);
}

function ofEach(finding: ChunkFinding): ChunkFinding {
  let isFirst = true;
  let of = "";
  const message = finding.message.replace(member, (_, name: string, __, count: string) => {
    if (isFirst) of = name;
    const isSaid = isFirst || name !== of;
    isFirst = false;
    return isSaid && name === of ? eachOf(name, count) : name;
  });
  return { ...finding, message };
}

/** `each of the 4 bags`; a name in the singular stays as it is written. */
function eachOf(name: string, count: string): string {
  return name.endsWith("s") ? `each of the ${count} ${name}` : `each of ${name} (${count})`;
}
