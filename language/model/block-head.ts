/** The head of a block: its word, for some a name, and then the brace. What stands beyond is never passed over. */
import type { Block } from "../syntax/tree.ts";
import type { Problem } from "./facts.ts";

/** @param most how many words of its head are read */
export function headBeyond({ head, readAs }: Block, most: number, problems: Problem[]): void {
  const beyond = head.tokens.slice(most);
  const [first] = beyond;
  // A head that stands for another block is told as that.
  if (!first || readAs !== undefined) return;
  problems.push({
    name: "trailing-words-not-understood",
    start: first.start,
    end: beyond.at(-1)!.end,
    data: {
      word: head.tokens
        .slice(0, most)
        .map((t) => t.text)
        .join(" "),
      expected: "",
      beyond: beyond.map((t) => t.text).join(" "),
    },
  });
}
