/** Figures of a title that tell a whole: all containers of a batch together, all that one holds, what an intermediate came to. */
import type { Run } from "../../bench/run.ts";
import type { Recipe } from "../../model/declaration.ts";
import { Exact } from "../../quantities/exact.ts";
import { inBase, type Quantity } from "../../quantities/quantity.ts";
import type { TextFigure } from "./figures-in-text.ts";

/** What all containers hold together, where the title states what one holds too: `150 mg, two syringes of 75 mg`. */
export function isTotal(
  { quantity }: TextFigure,
  figures: readonly TextFigure[],
  recipe: Recipe,
  given: readonly Quantity[],
): boolean {
  const count = recipe.order?.one("makes")?.slots.count.value;
  if (!count) return false;
  return given.some(
    (one) =>
      one.unit.dimension === quantity.unit.dimension &&
      inBase(one).times(count).equals(inBase(quantity)) &&
      figures.some(({ quantity: q }) => q.unit.dimension === one.unit.dimension && inBase(q).equals(inBase(one))),
  );
}

/** `2 mL of 1 mg/mL made up to 10 mL`: what an intermediate came to after some step. */
export function isOfIntermediate(volume: Quantity, { intermediates }: Recipe, runs: readonly Run[]): boolean {
  if (volume.unit.dimension.key !== "volume" || intermediates.length === 0) return false;
  const containers = new Set(intermediates.map(({ facts }) => facts.one("in")?.slots.container.name));
  return runs.some((run) =>
    run.steps.some(({ after }) =>
      [...after].some(([vessel, liquid]) => containers.has(vessel.name) && liquid.volume.equals(inBase(volume))),
    ),
  );
}

/** Behind `in` a volume is the diluent's where words follow that may name it: `in 100 mL sodium chloride`. */
const wholeAlone = /^\s*(?:$|[,;:.()]|(?:for|over|by|bag|syringe|total|infusion|iv|intravenous\w*)\b)/i;

/** `4 g, 108 mL`, `4 g in 108 mL`: all that the finished container holds, or what it holds of a drug that is counted by volume. */
export function isWholeVolume({ before, after, quantity }: TextFigure, runs: readonly Run[]): boolean {
  if (quantity.unit.dimension.key !== "volume") return false;
  if (/\bin\b[^,(]*$/i.test(before) && !(/\bin\s*$/i.test(before) && wholeAlone.test(after))) return false;
  return runs.some((run) =>
    run.finals.some(({ liquid }) => {
      const byVolume = [...liquid.amounts].filter(([drug]) => run.setup.kinds.get(drug) === "volume");
      return [liquid.volume, ...byVolume.map(([, held]) => held)].some((each) => each.equals(inBase(quantity)));
    }),
  );
}

const timesBefore = /(?<![\w.,])(\d+) ?[x×] ?$/;
/** `1 g x 2 vials` and `4 mg x 2 mL` count something else. */
const timesBehind =
  /^ ?[x×] ?(\d+)\b(?!\.?\d| ?(?:%|\/|m?L\b|m?g\b|mcg\b|units?\b|mmol\b|h\b|days?\b|weeks?\b|times\b|doses?\b|daily\b|vials?\b|ampoules?\b))/;

/** How often a figure is to be taken: 2 in `2 x 1 g` and in `1 g x 2`. */
export function timesSaid({ before, after }: TextFigure): Exact | undefined {
  const number = timesBefore.exec(before)?.[1] ?? timesBehind.exec(after)?.[1];
  return number === undefined ? undefined : Exact.of(number);
}

const andMore = /(?:\+|and|plus) ?/;
const andNext = /^ ?(?:\+|and|plus) ?$/;

/** `1.5 g (1 g and 500 mg)`: what two containers of a product hold of the dose. */
export function isPartOfSum(figure: TextFigure, figures: readonly TextFigure[], given: readonly Quantity[]): boolean {
  if (!andMore.test(figure.after.slice(0, 5)) && !andMore.test(figure.before.slice(-5))) return false;
  return figures.some((second, i) => {
    const first = figures[i - 1];
    if (!first || (figure !== first && figure !== second)) return false;
    const between = second.before.slice(first.before.length + first.written.length);
    if (!andNext.test(between) || first.quantity.unit.dimension !== second.quantity.unit.dimension) return false;
    const sum = inBase(first.quantity).plus(inBase(second.quantity));
    return given.some((dose) => dose.unit.dimension === first.quantity.unit.dimension && inBase(dose).equals(sum));
  });
}
