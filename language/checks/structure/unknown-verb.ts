import { mixedBy } from "../../bench/verbs/mixing.ts";
import { chunkCheck } from "../check.ts";
import { replaceText } from "../edits.ts";
import { example } from "../example.ts";
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
  find: ({ reading }) => problemsNamed(reading, "unknown-verb"),
  say: ({ problem }) => {
    const said = word(problem, "word");
    const how = mixedBy.get(said.toLowerCase());
    const instead = how
      ? ` A container is mixed, and by what stands behind it: write \`mix\`, its name and \`by ${how}\`.`
      : didYouMean(near(problem));
    return { text: `\`${said}\` is no verb of the steps; the step is not followed.${instead}` };
  },
  fixes: ({ problem }) =>
    near(problem).map((name) => ({ title: `Write ${name}`, edits: [replaceText(problem, name)] })),
});
