import { chunkCheck } from "../check.ts";
import { replaceText } from "../edits.ts";
import { example } from "../example.ts";
import { linesOf } from "./figures.ts";

export const quotesNotStraight = chunkCheck({
  name: "quotes-not-straight",
  family: "notation",
  severity: "warning",
  title: "Curly or single quotes around a text",
  why: "Word processors curl quotes; where such a text ends depends on which of them is taken for its end.",
  source: "common practice",
  bad: example([
    'appearance     "clear, colourless, free of particles"',
    "appearance     “clear, colourless, free of particles”",
  ]),
  good: example(),
  *find({ reading }) {
    for (const { tokens } of linesOf(reading)) {
      for (const { kind, text, start, end } of tokens) {
        if (kind !== "string" || (text[0] === '"' && text.at(-1) === '"')) continue;
        const inside = text.slice(1, -1);
        // A straight quote inside has to keep its mark, or the text would end there.
        const safe = `"${inside.replace(/(?<!\\)"/g, '\\"')}"`;
        yield { at: { start, end }, written: text[0] === '"' ? text.at(-1)! : text[0]!, safe };
      }
    }
  },
  say: ({ written }) => ({
    text: `The text stands between ${written} quotes. Write straight double quotes, "like these".`,
  }),
  fixes: ({ at, safe }) => [{ title: "Write straight quotes", edits: [replaceText(at, safe)], preferred: true }],
});
