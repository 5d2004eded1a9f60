import type { Spot } from "../../model/slots.ts";
import { chunkCheck } from "../check.ts";
import { replaceText } from "../edits.ts";
import { example } from "../example.ts";
import { routeInFull } from "../limits/route-words.ts";
import { linesOf } from "./figures.ts";

interface Short {
  at: Spot;
  written: string;
  meant: string;
}

export const routeNotInFull = chunkCheck({
  name: "route-not-in-full",
  family: "notation",
  severity: "warning",
  title: "A route that is not written by its whole name",
  why: "Two letters are misread for two others, and the sheet prints the route as it stands here.",
  source: "from memory: published lists of error-prone abbreviations ask for routes in full",
  bad: example(["route           intravenous", "route           IV"]),
  good: example(),
  *find({ reading }): Generator<Short, void> {
    for (const { tokens } of linesOf(reading)) {
      for (let i = 1; i < tokens.length; i++) {
        const { kind, text, start, end } = tokens[i]!;
        const before = tokens[i - 1]!.text;
        if (kind !== "word" || !(before === "route" || (before === "never" && i === 1))) continue;
        const meant = routeInFull(text);
        if (meant !== undefined) yield { at: { start, end }, written: text, meant };
      }
    }
  },
  say: ({ written, meant }) => ({ text: `The route ${written} is not written in full. Write ${meant}.` }),
  fixes: ({ at, meant }) => [{ title: `Write ${meant}`, edits: [replaceText(at, meant)], preferred: true }],
});
