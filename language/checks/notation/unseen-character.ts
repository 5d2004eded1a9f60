import { chunkCheck } from "../check.ts";
import { replaceText } from "../edits.ts";
import { example } from "../example.ts";
import { type Unseen, unseenIn } from "./unseen.ts";

/** A spoilt file holds thousands; the first few show what is wrong. */
const most = 20;

const sentences: Readonly<Record<Unseen["kind"], string>> = {
  turns:
    "turns the order of writing, so that the line reads otherwise on the screen than it is stored, a dose even backwards. Take it out.",
  hidden: "cannot be seen, but is part of what is read: two words that look the same are not. Take it out.",
  lost: "stands for a character that was lost when the file was saved or copied. Put in what was meant, and save the file as UTF-8.",
};

interface FoundUnseen extends Unseen {
  at: { start: number; end: number };
  more: number;
}

export const unseenCharacter = chunkCheck<FoundUnseen>({
  name: "unseen-character",
  family: "notation",
  severity: "error",
  title: "A character that cannot be seen, or that turns the order of what is seen",
  why: "What a reader checks is then not what the recipe says.",
  source: "Unicode Technical Report 36, Unicode security considerations: bidirectional and invisible characters",
  bad: example(['title  "Magnesium sulfate 4 g', 'title  "Magnesium \u200Bsulfate 4 g']),
  good: example(),
  *find({ chunk }) {
    const all = unseenIn(chunk.text);
    for (const [i, each] of all.slice(0, most).entries()) {
      yield { ...each, at: { start: each.start, end: each.end }, more: i === most - 1 ? all.length - most : 0 };
    }
  },
  say: ({ kind, codes, more }) => ({
    text: `A character stands here (${codes}) that ${sentences[kind]}${more > 0 ? ` There are ${more} more in this declaration.` : ""}`,
  }),
  fixes: ({ at, instead }) =>
    instead === undefined ? [] : [{ title: "Take it out", edits: [replaceText(at, instead)], preferred: true }],
});
