/** What is meant by a step that does not fit its verb, where a recipe says it otherwise; the step is not read. */
import type { Problem } from "../../model/facts.ts";
import type { Line } from "../../syntax/tree.ts";
import { word } from "../problems.ts";
import type { OrderForm } from "./order-forms.ts";

type Row = readonly [pattern: RegExp, text: string];

/** By the verb; the pattern is that of the line from the word that does not fit. */
const tables: Readonly<Record<string, readonly Row[]>> = {
  fill: [
    [
      /^of /,
      "`fill` fills one container. Write `transfer`, the volume, `from`, the container, `to each of` the set and `using` tubing; or name each container in `materials` and write a `fill` for each.",
    ],
    [
      /^to /,
      "To a final volume something is made up: write `make up`, the container, `to`, the volume, `with`, the liquid and `using`.",
    ],
    [
      /^(?:using |$|[a-z][\w-]*$)/,
      "`fill` draws and fills in one step, from a container: write the amount, `from` and `using`. What a syringe holds already goes in by `inject`.",
    ],
  ],
  draw: [
    [
      /^, /,
      "A draw fills one syringe, or each of a set. Write a draw for each; or make them one set in `materials`, such as `syringes  4 x syringe-10mL`, and draw `into each of` it.",
    ],
    [
      /^(?:final-volume|lumen|rest|remainder|remaining)\b/,
      "A step draws a figure, the ordered `dose`, the `rest of dose` or `all`; of several drugs `dose of` or `rest of` the one that is meant. Write one of them.",
    ],
  ],
};

/** Undefined where no row knows it. */
export function stepForm(problem: Problem, line: Line | undefined): OrderForm | undefined {
  const tokens = line?.tokens ?? [];
  const table = tables[tokens[0]?.text ?? ""];
  if (!table) return undefined;
  const at = word(problem, "found") === "" ? tokens.length : tokens.findIndex((t) => t.start === problem.start);
  const rest = tokens
    .slice(Math.max(0, at))
    .map((t) => t.text)
    .join(" ");
  const row = table.find(([pattern]) => pattern.test(rest));
  return row && { text: row[1] };
}
