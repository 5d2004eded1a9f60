import { chunkCheck } from "../check.ts";
import { example } from "../example.ts";
import { problemsNamed, word } from "../problems.ts";

export const stepNotUnderstood = chunkCheck({
  name: "step-not-understood",
  family: "structure",
  severity: "error",
  title: "A step that does not fit its verb",
  why: "A step that cannot be read is not done at the bench, and nothing after it can be judged as a whole.",
  source: "common practice",
  bad: example(["    expel air from syringe", "    expel air out syringe"]),
  good: example(),
  // Hyphen ranges and odd dates are told by the notation checks, with their remedy.
  find: ({ reading }) =>
    problemsNamed(reading, "step-not-understood").filter(
      (f) => !["hyphen-range", "date-shape"].includes(word(f.problem, "fault")),
    ),
  say: ({ problem }) => ({
    text: `${word(problem, "found") ? `Here stands \`${word(problem, "found")}\`` : "Here the line ends"}; ${word(problem, "expected")} belongs here. The step is written: ${word(problem, "form")}. It is not followed as it stands.`,
  }),
});
