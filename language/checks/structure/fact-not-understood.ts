import { chunkCheck } from "../check.ts";
import { example } from "../example.ts";
import { problemsNamed, word } from "../problems.ts";

export const factNotUnderstood = chunkCheck({
  name: "fact-not-understood",
  family: "structure",
  severity: "error",
  title: "A fact that does not fit its word",
  why: "A fact that cannot be read is not used.",
  source: "common practice",
  bad: example(["    diluent-volume  100 mL", "    diluent-volume  about 100 mL"]),
  good: example(),
  // Hyphen ranges and odd dates are told by the notation checks, with their remedy.
  find: ({ reading }) =>
    problemsNamed(reading, "fact-not-understood").filter(
      (f) => !["hyphen-range", "date-shape"].includes(word(f.problem, "fault")),
    ),
  say: ({ problem }) => ({
    text: `${word(problem, "found") ? `Here stands \`${word(problem, "found")}\`` : "Here the line ends"}; ${word(problem, "expected")} belongs here. The line is written: ${word(problem, "form")}. It is not used as it stands.`,
  }),
});
