import type { Example, Recipe } from "../../model/declaration.ts";
import type { Lookup } from "../../model/lookup.ts";
import { inBase, type Quantity } from "../../quantities/quantity.ts";
import { recipeCheck } from "../check.ts";
import { example } from "../example.ts";
import { measuresOf } from "../stated-measures.ts";
import { inputsOf } from "../volumes/example-runs.ts";
import { isEndOfRange } from "../written/bare-figures.ts";
import { figuresIn, type TextFigure } from "../written/figures-in-text.ts";
import { isHeldByProduct } from "../written/product-figures.ts";

const before = "  preparation bag {";
const route = "    route           intravenous\n";
const titled = (title: string): string =>
  example(
    ["rate           up to 9 g/h", "rate           up to 150 mg/kg/h"],
    [route, `${route}    weight          40 kg to 60 kg in steps of 0.1 kg\n`],
    [before, `  example "${title}" {\n    weight  50 kg\n    expect  dose 4 g\n  }\n\n${before}`],
  );

/** It lies on one side of the figure: `above 80 kg`, `up to 2 g`. */
const onOneSide =
  /\b(?:above|over|under|below|beyond|from|since|until|least|most|than|near|close to|up to|next to|exceed\w*)\s*$/i;

interface Differing {
  at: { start: number; end: number };
  said: string;
  stated: string;
}

export const exampleTitleDiffers = recipeCheck<Differing>({
  name: "example-title-differs",
  family: "record",
  severity: "error",
  across: true,
  title: "The title of a worked example says another patient or dose than the example",
  why: "The example is looked up by its title, and its figures are then taken for another patient.",
  source: "common practice",
  bad: titled("adult of 60 kg"),
  good: titled("adult of 50 kg"),
  *find({ recipe, lookup }) {
    for (const each of recipe.examples) {
      if (!each.title) continue;
      for (const figure of figuresIn(each.title.text)) {
        const stated = contradictedBy(figure, each, recipe, lookup);
        if (stated !== undefined) yield { at: each.title, said: figure.written, stated };
      }
    }
  },
  say: ({ said, stated }) => ({
    text: `The title of this example says ${said}; the example says ${stated}. Correct whichever is wrong.`,
  }),
});

/** What the example says instead; undefined where the figure is right, or may speak of something else. */
function contradictedBy(figure: TextFigure, of: Example, recipe: Recipe, lookup: Lookup): string | undefined {
  if (isEndOfRange(figure) || onOneSide.test(figure.before) || isHeldByProduct(figure, recipe, lookup))
    return undefined;
  const { unit } = figure.quantity;
  const isSame = (quantity: Quantity | undefined) =>
    quantity?.unit.dimension === unit.dimension && inBase(quantity).equals(inBase(figure.quantity));
  const inputs = inputsOf(of);
  if (inputs.some(({ value }) => isSame(value.quantity))) return undefined;
  // A patient is weighed in kg and a dose is not, though both are masses.
  const isMass = unit.dimension.key === "mass";
  const alike = inputs.filter(
    ({ value }) => value.quantity?.unit.dimension === unit.dimension && (!isMass || unit.spelling === "kg"),
  );
  if (alike.length > 0) return alike.map(({ input, value }) => `${input} ${value.written}`).join(" and ");
  if (unit.spelling === "kg") return undefined;
  const doses = of.facts.all("expect").flatMap(({ slots }) => (slots.amount ? [slots.amount] : []));
  if (!doses.some(({ quantity }) => quantity?.unit.dimension === unit.dimension)) return undefined;
  // `capped at 2 g` is a figure of the order.
  const known = [...of.facts.all("expect").flatMap(measuresOf), ...(recipe.order?.every() ?? []).flatMap(measuresOf)];
  const bounds = (recipe.order?.every() ?? []).flatMap(({ when }) => [
    when?.bound.low?.measure,
    when?.bound.high?.measure,
  ]);
  if ([...known, ...bounds].some((measure) => isSame(measure?.quantity))) return undefined;
  return `dose ${doses.map(({ written }) => written).join(" and ")}`;
}
