import { lineStartAt } from "../../syntax/lines.ts";
import { chunkCheck } from "../check.ts";
import { withoutLine } from "../edits.ts";
import { example } from "../example.ts";

export const strayClosingBrace = chunkCheck({
  name: "stray-closing-brace",
  family: "structure",
  severity: "error",
  title: "A closing brace without a block",
  why: "A block may have ended earlier than meant.",
  source: "common practice",
  bad: example([
    '    appearance     "clear, colourless, free of particles"\n  }\n}',
    '    appearance     "clear, colourless, free of particles"\n  }\n}\n}',
  ]),
  good: example(),
  *find({ reading }) {
    for (const { name, start, end, word: inside } of reading.tree.problems)
      if (name === "stray-closing-brace") yield { at: { start, end }, inside };
  },
  say: ({ inside }) => ({
    text:
      inside === undefined
        ? "This brace closes nothing. Take it out, or open the block that it should close."
        : `This brace would end \`${inside}\`, but lines of ${inside} follow, and are read as such. Take it out, or open the block that it should close.`,
  }),
  fixes: ({ at, inside }, { chunk }) => {
    const { text } = chunk;
    const line = text.slice(lineStartAt(text, at.start), at.end) + /^[^\r\n]*/.exec(text.slice(at.end))![0];
    if (inside === undefined || line.trim() !== "}") return [];
    return [{ title: "Take it out", edits: [withoutLine(text, at)] }];
  },
});
