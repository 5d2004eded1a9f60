import type { Spot } from "../../model/slots.ts";
import { lineEndAt, lineStartAt } from "../../syntax/lines.ts";
import { chunkCheck } from "../check.ts";
import { example } from "../example.ts";

export const blockNotClosed = chunkCheck({
  name: "block-not-closed",
  family: "structure",
  severity: "error",
  title: "A block that is never closed",
  why: "What follows may land in the wrong block.",
  source: "common practice",
  bad: example(
    [
      "    keep mag, filter, needle, syringe for check\n    check by pharmacist\n  }",
      "    keep mag, filter, needle, syringe for check\n    check by pharmacist\n  }",
    ],
    [
      '    appearance     "clear, colourless, free of particles"\n  }\n}',
      '    appearance     "clear, colourless, free of particles"\n  }',
    ],
  ),
  good: example(),
  *find({ reading, chunk }) {
    for (const { name, start, end, before, lastEntryEnd = end, within = [] } of reading.tree.problems) {
      if (name !== "block-not-closed") continue;
      const text = chunk.text;
      const word = /[^\s{]+/.exec(text.slice(start, end))?.[0] ?? "";
      const head = { start, end };
      const next =
        before &&
        text
          .slice(before.start)
          .match(/^[^\r\n]{0,60}/)![0]
          .trim();
      yield { at: lastLine(text, head, lastEntryEnd), head, word, next, lastEntryEnd, within };
    }
  },
  say: ({ at, head, word, next, within }) => {
    const place = `on a line of its own ${next === undefined ? "at its end" : `above \`${next}\``}`;
    const outer = word === "" ? "This block" : `\`${word}\``;
    const inner = within.map((b) => `\`${b.word}\``).join(" and ");
    return {
      text:
        within.length === 0
          ? `${outer} has no closing brace. Put \`}\` ${place}.`
          : `${outer} has no closing brace, nor has ${inner} in it. Put \`}\` for each ${place}.`,
      related: at.start === head.start ? [] : [{ at: head, text: "opened here" }],
    };
  },
  fixes: ({ head, lastEntryEnd, within }, { chunk }) => {
    const { text } = chunk;
    const lineEnd = lineEndAt(text, lastEntryEnd);
    const braces = [...within].reverse().concat({ word: "", start: head.start });
    const lines = braces.map(({ start }) => `\n${indentAt(text, start)}}`);
    return [{ title: "Close it", edits: [{ at: { start: lineEnd, end: lineEnd }, text: lines.join("") }] }];
  },
});

/** Where the brace is missing: the last line that stands in the block, or its head where none does. */
function lastLine(text: string, head: Spot, lastEntryEnd: number): Spot {
  const lineStart = lineStartAt(text, lastEntryEnd);
  const indent = /^[ \t]*/.exec(text.slice(lineStart, lastEntryEnd))![0].length;
  return lastEntryEnd <= head.end ? head : { start: Math.max(head.start, lineStart + indent), end: lastEntryEnd };
}

function indentAt(text: string, at: number): string {
  return /^[ \t]*/.exec(text.slice(lineStartAt(text, at), at))![0];
}
