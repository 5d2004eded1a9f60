/** The rate in mL/h at which a line of the label says that it runs, laid against the order. */
import type { Run } from "../../bench/run.ts";
import type { Recipe } from "../../model/declaration.ts";
import type { Lookup } from "../../model/lookup.ts";
import { hoursOfGiving } from "../../quantities/hours.ts";
import { type Quantity, volumeOf } from "../../quantities/quantity.ts";
import { findUnit } from "../../quantities/unit.ts";
import { isBare, isEndOfRange } from "./bare-figures.ts";
import { figuresIn } from "./figures-in-text.ts";
import { figuresOfEquations } from "./label-equations.ts";
import { isNear, shownAll } from "./label-figures.ts";
import { assertions, type Contradiction, ownWords } from "./words-against-order.ts";

const perHour = findUnit("mL/h").unit!;

const speaksOfRate = /\b(?:run|rate|infuse|give|at)\b/i;
/** A rate of another liquid, of a part of the time, or a limit. */
const otherRate =
  /\b(?:start\w*|initial\w*|first|increas\w*|decreas\w*|titrat\w*|adjust\w*|flush\w*|bolus|loading|up to|maxim\w*|exceed\w*|keep vein)\b/i;

/** `Run at 100 mL/h` where the order says 1 mL/h, or a volume and a time that make another rate. */
export function rateContradicted(
  text: string,
  recipe: Recipe,
  runs: readonly Run[],
  lookup: Lookup,
): Contradiction | undefined {
  if (runs.some((run) => run.unknown)) return undefined;
  for (const sentence of assertions(text)) {
    if (otherRate.test(sentence)) continue;
    for (const figure of figuresIn(sentence)) {
      if (figure.quantity.unit.dimension !== perHour.dimension || isEndOfRange(figure)) continue;
      if (figuresOfEquations(sentence).has(figure)) continue;
      // `41.7 mL/h` alone, or behind the dose, is the rate too.
      if (!speaksOfRate.test(sentence) && !isBare(figure, sentence, ownWords(recipe, lookup))) continue;
      const known = ratesOf(recipe, runs);
      if (known.length === 0 || known.some((each) => isNear(each, figure.quantity))) continue;
      return { said: figure.written, ordered: shownAll(known) };
    }
  }
  return undefined;
}

/** Stated in mL by time; else the volume of the order, and of what is in the container, over the time of giving. */
function ratesOf({ order }: Recipe, runs: readonly Run[]): Quantity[] {
  const stated = (order?.all("infuse-at") ?? []).flatMap(({ slots }) => slots.rate.quantity ?? []);
  const direct = stated.filter(({ unit }) => unit.dimension === perHour.dimension);
  if (stated.length > 0) return direct;
  const volumes = [
    ...runs.flatMap((run) => run.finals.map(({ liquid }) => liquid.volume)),
    ...[...(order?.all("diluent-volume") ?? []), ...(order?.all("final-volume") ?? [])].flatMap(
      ({ slots }) => volumeOf(slots.volume.quantity) ?? [],
    ),
  ].filter((volume) => volume.isPositive());
  const times = (order?.all("infuse-over") ?? []).flatMap(({ slots }) => hoursOfGiving(slots.time.quantity) ?? []);
  return times.flatMap((time) => volumes.map((volume) => ({ value: volume.over(time), unit: perHour })));
}
