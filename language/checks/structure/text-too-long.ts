import { Exact } from "../../quantities/exact.ts";
import { numberText } from "../../quantities/number-text.ts";
import { longestLine, longestText } from "../../syntax/words.ts";
import { chunkCheck } from "../check.ts";
import { example } from "../example.ts";

/** Some twenty lines of a book: a statement of that length is checked by nobody, and it hides what stands at its end. */
const longestToCheck = 2_000;

export const textTooLong = chunkCheck({
  name: "text-too-long",
  family: "structure",
  severity: "error",
  title: "A file or a line too long to be read",
  why: "No recipe or list of stock comes near it, so something else was saved under this name, or a line break was lost.",
  source: "common practice",
  bad: example(["recipe magnesium-4g {", `# ${"-".repeat(longestToCheck)}\nrecipe magnesium-4g {`]),
  good: example(),
  *find({ reading, chunk }) {
    const unread = reading.tree.problems.find((p) => p.name === "text-too-long");
    if (unread) {
      const isFile = chunk.text.length > longestText;
      yield {
        at: { start: unread.start, end: unread.start + 1 },
        length: unread.end - unread.start,
        isFile,
        isRead: false,
      };
      return;
    }
    for (const { start, end } of linesAbove(chunk.text, longestToCheck)) {
      yield { at: { start, end: start + 80 }, length: end - start, isFile: false, isRead: true };
    }
  },
  say({ length, isFile, isRead }) {
    if (isFile) {
      return {
        text: `This file holds ${counted(length)} characters; above ${counted(longestText)} none is read, so nothing in it is checked. Save recipes and stock in files of their own, or take out what is neither.`,
      };
    }
    const unread = isRead
      ? "more than anybody checks"
      : `above ${counted(longestLine)} none is read, so nothing in this declaration is checked`;
    return { text: `This line holds ${counted(length)} characters; ${unread}. Break it into statements, a line each.` };
  },
});

function counted(count: number): string {
  return numberText(Exact.of(count), "comma");
}

/** Stepped from break to break: a pattern for long lines starts anew at every character of a short one. */
function* linesAbove(text: string, longest: number): Iterable<{ start: number; end: number }> {
  for (let start = 0; start + longest < text.length; ) {
    const feed = text.indexOf("\n", start);
    const stop = feed < 0 ? text.length : feed;
    // A file with carriage returns alone is one stretch here.
    if (stop - start > longest) {
      for (let from = start; from < stop; ) {
        const back = text.indexOf("\r", from);
        const end = back < 0 || back > stop ? stop : back;
        if (end - from > longest) yield { start: from, end };
        from = end + 1;
      }
    }
    start = stop + 1;
  }
}
