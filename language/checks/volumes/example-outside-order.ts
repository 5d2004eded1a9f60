import type { Example } from "../../model/declaration.ts";
import { isShownAsError } from "../../model/shown-as-error.ts";
import type { Spot } from "../../model/slots.ts";
import { recipeCheck } from "../check.ts";
import { example } from "../example.ts";
import { isOrderBackwards, isOrderRangeUnread } from "../units/range-backwards.ts";
import { exampleName, inputsOf, pointOf, rangesOf, standsIn } from "./example-runs.ts";

const before = "  preparation bag {";
const route = "    route           intravenous\n";
const ranged = (weight: string): string =>
  example(
    ["rate           up to 9 g/h", "rate           up to 150 mg/kg/h"],
    [route, `${route}    weight          40 kg to 60 kg in steps of 0.1 kg\n`],
    [before, `  example "a patient" {\n    weight  ${weight}\n    expect  dose 4 g\n  }\n\n${before}`],
  );

interface Outside {
  at: Spot;
  of: Example;
  text: string;
}

export const exampleOutsideOrder = recipeCheck<Outside>({
  name: "example-outside-order",
  family: "volumes",
  severity: "error",
  across: true,
  title: "A worked example whose figures the order does not allow, or that lacks one",
  why: "An example outside the order shows nothing of the recipe and is not compared.",
  source: "common practice",
  bad: ranged("70 kg"),
  good: ranged("50 kg"),
  *find({ recipe, policy }) {
    if (isOrderBackwards(recipe) && isShownAsError("range-backwards", recipe, policy)) return;
    if (isOrderRangeUnread(recipe)) return;
    const ranges = rangesOf(recipe);
    for (const each of recipe.examples) {
      const stated = inputsOf(each);
      let told = false;
      for (const { input, value } of stated) {
        const text = faultOf(input, value.quantity, value.written, ranges, recipe.order?.isUnread(input) === true);
        if (text === undefined) continue;
        told = true;
        yield { at: { start: value.start, end: value.end }, of: each, text };
      }
      const lacking = [...ranges.keys()].filter(
        (input) => !stated.some((s) => s.input === input) && !each.facts.isUnread(input),
      );
      if (!told && lacking.length > 0 && !pointOf(each, recipe)) {
        yield {
          at: { start: each.start, end: each.end },
          of: each,
          text: `states no ${lacking.join(" and no ")}, for which the order has a range. Add it`,
        };
      }
    }
  },
  say: ({ of, text }) => {
    const name = exampleName(of);
    return { text: `${name.slice(0, 1).toUpperCase()}${name.slice(1)} ${text}.` };
  },
});

function faultOf(
  input: string,
  value: Parameters<typeof standsIn>[0] | undefined,
  written: string,
  ranges: ReturnType<typeof rangesOf>,
  isUnread: boolean,
): string | undefined {
  if (!value) return undefined; // the notation is told at its place
  const rows = ranges.get(input);
  if (!rows && isUnread) return undefined;
  if (!rows)
    return `states a ${input} of ${written}, and the order has no \`${input}\`. Take it out, or add it to the order`;
  const allowed = rows
    .map((r) => `${r.range.from.written}${r.range.isRange ? ` to ${r.range.to.written}` : ""}`)
    .join(" or ");
  switch (standsIn(value, rows)) {
    case "yes":
      return undefined;
    case "between-steps":
      return `states a ${input} of ${written}, which lies between two steps of ${rows.map((r) => r.range.from.written).join(" or ")} and up. Take a value on a step`;
    case "outside":
      return `states a ${input} of ${written}; the order is for ${allowed}. Take a value that the order allows`;
    default:
      return `states a ${input} of ${written}, which cannot be compared with ${allowed}. Write it in the unit of the order`;
  }
}
