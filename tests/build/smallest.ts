/** The smallest text that still shows a finding: declarations, then blocks and lines are left out as long as nothing else is told. */
import { Library } from "../../language/library.ts";
import { splitChunks } from "../../language/syntax/chunks.ts";

/** @returns a text with the same one finding, its message unchanged, from which no declaration and no line can be left out */
export function smallest(text: string, asOf: string): string {
  const library = new Library({ asOf });
  const said = (t: string) => {
    library.change("sample.misce", t);
    return library.findings("sample.misce").map((f) => `${f.name}: ${f.message}`);
  };
  const [wanted, ...others] = said(text);
  if (wanted === undefined || others.length > 0) return text;
  const still = (t: string) => {
    const now = said(t);
    return now.length === 1 && now[0] === wanted;
  };
  let kept = withoutSome(
    splitChunks(text).map((c) => c.text),
    still,
    "",
  );
  kept = withoutSome(
    kept.flatMap((chunk) => parts(chunk)),
    still,
    "",
  );
  return kept
    .join("")
    .replace(/\n{3,}/g, "\n\n")
    .replace(/^\n+/, "");
}

/** Pieces left out one by one, from the last to the first. */
function withoutSome(pieces: readonly string[], still: (text: string) => boolean, between: string): string[] {
  let kept = [...pieces];
  for (let k = kept.length - 1; k >= 0; k--) {
    const fewer = kept.filter((_, j) => j !== k);
    if (still(fewer.join(between))) kept = fewer;
  }
  return kept;
}

/** Lines; an inner block that ends before its next neighbour stays in one piece with its braces. */
function parts(chunk: string): string[] {
  const lines = chunk.split(/(?<=\n)/);
  const list: string[] = [];
  let depth = 0;
  for (const line of lines) {
    const bare = line.replace(/\s#.*$|^#.*$/m, "").trim();
    const inside = depth >= 2 && /^\s{4}/.test(line) && list.length > 0 && blockOfOnePiece(list.at(-1)!);
    if (inside || (bare === "}" && list.length > 0 && blockOfOnePiece(list.at(-1)!))) list[list.length - 1] += line;
    else list.push(line);
    if (bare.endsWith("{")) depth++;
    if (bare === "}") depth--;
  }
  return list;
}

/** Stability rows, reconstitution and examples are left out whole or not at all. */
function blockOfOnePiece(text: string): boolean {
  return /^\s*(stable|reconstitute|example|intermediate|label-text)\b.*\{/.test(text) && !/\n\s*\}\s*$/.test(text);
}
