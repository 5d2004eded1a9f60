import type { Problem } from "../../model/facts.ts";
import type { Spot } from "../../model/slots.ts";
import { findUnit } from "../../quantities/unit.ts";
import type { Line } from "../../syntax/tree.ts";
import { chunkCheck } from "../check.ts";
import type { ChunkContext } from "../context.ts";
import { example } from "../example.ts";
import { lineAt } from "../notation/figures.ts";
import { isToldElsewhere } from "../notation/told-elsewhere.ts";
import { problemsNamed, word } from "../problems.ts";
import { factForm } from "./fact-forms.ts";
import { limitForm } from "./limit-forms.ts";
import { nameForm } from "./name-forms.ts";
import { fixOf, type OrderForm, orderForm } from "./order-forms.ts";
import { plainForm } from "./plain-forms.ts";

export const factNotUnderstood = chunkCheck({
  name: "fact-not-understood",
  family: "structure",
  severity: "error",
  title: "A fact that does not fit its word",
  why: "A fact that cannot be read is not used.",
  source: "common practice",
  bad: example(["    diluent-volume  100 mL", "    diluent-volume  about 100 mL"]),
  good: example(),
  find: (context) =>
    problemsNamed(context.reading, "fact-not-understood")
      .filter((f) => !isToldElsewhere(context, f.problem))
      .map((f) => ({ ...f, form: formOf(f.problem, lineAt(context.reading, f.problem)) })),
  say: ({ problem, form }) => {
    const found = word(problem, "found");
    if (form)
      return {
        text: `${found ? `\`${found}\` cannot stand here` : "The line ends too soon"}, and the line is not used. ${form.text}`,
      };
    const block = word(problem, "block");
    if (block)
      return {
        text: `A line of \`${block}\` begins with a word that says what it is, such as \`${word(problem, "such")}\`. This one begins with \`${found}\` and is not used. Put its word in front.`,
      };
    return {
      text: `${found ? `\`${found}\` stands` : "The line ends"} where ${word(problem, "expected")} belongs. The line is written: ${word(problem, "form")}. It is not used as it stands.`,
    };
  },
  fixes: ({ problem, form }, context) => {
    const meant = form ? form.instead : unitInPieces(context, problem);
    return meant ? [fixOf(meant)] : [];
  },
});

function formOf(problem: Problem, line: Line | undefined): OrderForm | undefined {
  return (
    limitForm(problem, line) ??
    factForm(problem, line) ??
    orderForm(problem, line) ??
    nameForm(problem, line) ??
    plainForm(problem, line)
  );
}

/** `500 mg per mL` and `500 mg / mL`: the unit is one word, `mg/mL`. */
function unitInPieces(context: ChunkContext, problem: Problem): { at: Spot; text: string } | undefined {
  const tokens = lineAt(context.reading, problem)?.tokens ?? [];
  const at = tokens.findIndex((t) => t.start === problem.start);
  const [above, below] = [tokens[at - 1], tokens[at + 1]];
  if (above?.kind !== "unit" || below?.kind !== "word" || !/^(?:per|\/)$/.test(tokens[at]!.text)) return undefined;
  const text = `${above.text}/${below.text}`;
  return findUnit(text).unit ? { at: { start: above.start, end: below.end }, text } : undefined;
}
