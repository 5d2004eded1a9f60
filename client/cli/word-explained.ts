/** A word of the language as text: a block with all its lines, or each line that begins with the word. */
import { safetyNotice } from "../../shared/report.ts";
import type { BlockWords, LineWords } from "./engine-contract.ts";

/** @returns undefined where the language has no such word */
export function wordExplained(word: string, blocks: readonly BlockWords[]): string | undefined {
  const parts = [
    ...blocks.filter((block) => block.word === word).map(blockText),
    ...blocks.flatMap((block) => {
      const own = block.lines.filter((line) => line.word === word);
      return own.length === 0 ? [] : [[`${word}, a ${kindOf(block)}:`, ...own.map(lineText)].join("\n\n")];
    }),
  ];
  return parts.length === 0 ? undefined : `${[...parts, safetyNotice].join("\n\n")}\n`;
}

/** Every word that can be asked for, once. */
export function wordsOf(blocks: readonly BlockWords[]): string[] {
  const all = blocks.flatMap((block) => [block.word, ...block.lines.map((line) => line.word)]);
  return [...new Set(all)].filter((word) => word !== "");
}

function kindOf({ word }: BlockWords): string {
  return word === "steps" ? "step" : `line of ${word}`;
}

function blockText({ head, about, within, lines, blocks }: BlockWords): string {
  const place = within === undefined ? "" : ` Stands in ${within}.`;
  const inner = blocks.map((block) => `  ${block.form}\n      A block. ${block.about}`);
  return [`${head} … }`, `${about}${place}`, ...lines.map(lineText), ...inner].join("\n\n");
}

function lineText({ form, meaning, cautions }: LineWords): string {
  return [`  ${form}`, `      ${meaning}`, ...cautions.map((caution) => `      At the bench: ${caution}`)].join("\n");
}
