import { chunkCheck } from "../check.ts";
import { replaceText } from "../edits.ts";
import { example } from "../example.ts";
import { meantVerb } from "../meant-verbs.ts";
import { lineAt } from "../notation/figures.ts";
import { near, problemsNamed, word } from "../problems.ts";
import { didYouMean } from "../showing.ts";

export const unknownVerb = chunkCheck({
  name: "unknown-verb",
  family: "structure",
  severity: "error",
  title: "A step that begins with a word that is no verb",
  why: "A step that cannot be read is not done at the bench, and nothing after it can be judged as a whole.",
  source: "common practice",
  bad: example(["    expel air from syringe", "    expell air from syringe"]),
  good: example(),
  find: ({ reading }) =>
    problemsNamed(reading, "unknown-verb").map((found) => ({
      ...found,
      meant: meantVerb(word(found.problem, "word"), lineAt(reading, found.problem)),
      /** Behind a number or mark: where the step begins. */
      first: lineAt(reading, found.problem)?.tokens.find(({ kind }) => kind === "word"),
    })),
  say: ({ problem, meant }) => {
    if (numbering.test(word(problem, "word")))
      return {
        text: `Steps carry no number or mark of their own; the sheet numbers them. Leave \`${word(problem, "word")}\` out: the step is not followed.`,
      };
    const text = `\`${word(problem, "word")}\` is no verb of the steps; the step is not followed.`;
    if (meant) return { text: `${text} ${meant.text}` };
    const alike = didYouMean(near(problem));
    return { text: `${text}${alike || instead}` };
  },
  fixes: ({ problem, meant, first }) => {
    if (numbering.test(word(problem, "word")))
      return first
        ? [{ title: "Leave it out", edits: [replaceText({ start: problem.start, end: first.start }, "")] }]
        : [];
    const verbs = meant ? [meant.verb ?? []].flat() : near(problem);
    return verbs.map((name) => ({ title: `Write ${name}`, edits: [replaceText(problem, name)] }));
  },
});

/** `1`, `1.`, `-`, `•`. */
const numbering = /^(?:\d+[.)]*|[-–•*])$/;

const instead =
  ' `misce explain steps` lists the verbs; what none of them says is written `note "…"`, printed and not followed.';
