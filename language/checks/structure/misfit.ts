/** Where a line does not fit its form, for those who say what to write instead. */
import type { Problem } from "../../model/facts.ts";
import type { Line } from "../../syntax/tree.ts";

/** Index of the token that does not fit; -1 where the line ends too soon. */
export function misfitAt(problem: Problem, { tokens }: Line): number {
  return tokens.findIndex((t) => t.start === problem.start && t.end === problem.end);
}

/** The words of a form as it is shown, its placeholders (`ROUTE`) among them. */
export function wordsOfForm(form: string): readonly string[] {
  return form.split(/[^\w-]+/);
}
