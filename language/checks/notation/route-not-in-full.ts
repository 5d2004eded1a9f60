import type { Spot } from "../../model/slots.ts";
import { chunkCheck } from "../check.ts";
import { replaceText } from "../edits.ts";
import { example } from "../example.ts";
import { routeInFull } from "../limits/route-words.ts";
import { writtenRoutes } from "./written-routes.ts";

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
    for (const { token } of writtenRoutes(reading)) {
      const { text, start, end } = token;
      const meant = routeInFull(text);
      if (meant !== undefined) yield { at: { start, end }, written: text, meant };
    }
  },
  say: ({ written, meant }) => ({ text: `The route ${written} is not written in full. Write ${meant}.` }),
  fixes: ({ at, meant }) => [{ title: `Write ${meant}`, edits: [replaceText(at, meant)], preferred: true }],
});
