import { chunkCheck } from "../check.ts";
import { example } from "../example.ts";
import { lineAt } from "../notation/figures.ts";
import { isToldElsewhere } from "../notation/told-elsewhere.ts";
import { problemsNamed, word } from "../problems.ts";
import { claimForm } from "./claim-forms.ts";
import { factForm } from "./fact-forms.ts";
import { fixOf } from "./order-forms.ts";
import { plainForm } from "./plain-forms.ts";
import { stepForm } from "./step-forms.ts";

export const stepNotUnderstood = chunkCheck({
  name: "step-not-understood",
  family: "structure",
  severity: "error",
  title: "A step that does not fit its verb",
  why: "A step that cannot be read is not done at the bench, and nothing after it can be judged as a whole.",
  source: "common practice",
  bad: example(["    expel air from syringe", "    expel air out syringe"]),
  good: example(),
  find: (context) =>
    problemsNamed(context.reading, "step-not-understood")
      .filter((f) => !isToldElsewhere(context, f.problem))
      .map((f) => {
        const line = lineAt(context.reading, f.problem);
        return {
          ...f,
          form:
            claimForm(f.problem, line) ??
            factForm(f.problem, line) ??
            stepForm(f.problem, line) ??
            plainForm(f.problem, line),
        };
      }),
  say: ({ problem, form }) => {
    const found = word(problem, "found");
    if (form)
      return {
        text: `${found ? `\`${found}\` cannot stand here` : "The line ends too soon"}, and the step is not followed. ${form.text}`,
      };
    return {
      text: `${found ? `\`${found}\` stands` : "The line ends"} where ${word(problem, "expected")} belongs. The step is written: ${word(problem, "form")}. It is not followed as it stands.`,
    };
  },
  fixes: ({ form }) => (form?.instead ? [fixOf(form.instead)] : []),
});
