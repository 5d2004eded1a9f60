import type { Stock } from "../../model/declaration.ts";
import type { MeasureSlot } from "../../model/slots.ts";
import { Exact } from "../../quantities/exact.ts";
import { inBase, measure, volumeOf } from "../../quantities/quantity.ts";
import { declarationCheck } from "../check.ts";
import { example } from "../example.ts";
import { withArticle } from "../showing.ts";
import { isWithin, type WrittenBounds } from "../written-bounds.ts";

/** The least and the most that a container of its kind is sold with; wide, so that only a slip lies outside. */
const fills: Readonly<Record<string, WrittenBounds>> = {
  ampoule: ["0.05 mL", "100 mL"],
  vial: ["0.05 mL", "1 L"],
  "prefilled-syringe": ["0.02 mL", "100 mL"],
  bag: ["5 mL", "10 L"],
  bottle: ["1 mL", "10 L"],
};
/** The least and the most that a container takes, empty ones too; and how many times its fill, of which a bag may be part. */
const capacities: WrittenBounds = ["0.05 mL", "10 L"];
const mostTimesFill = Exact.of(10);
/** No solution holds more than it weighs, and none for patients weighs twice what water does. */
const heaviest = measure("2 g/mL");

interface Unlikely {
  at: MeasureSlot;
  text: string;
}

export const labelFigureUnlikely = declarationCheck<Unlikely>({
  name: "label-figure-unlikely",
  family: "stock",
  severity: "warning",
  title: "A strength, a fill or a capacity that no product has",
  why: "A slip of the unit on the shelf is the same slip in every recipe that draws from it.",
  source: "common practice",
  bad: example(["  fill       10 mL\n", "  fill       10 L\n"]),
  good: example(),
  *find({ declaration }) {
    if (declaration.kind !== "stock") return;
    yield* strengths(declaration);
    yield* capacitiesOf(declaration);
    const { facts } = declaration;
    const kind = facts.one("container")?.slots.kind.choice;
    const fill = facts.one("fill")?.slots.fill;
    const bounds = kind === undefined ? undefined : fills[kind];
    if (!bounds || fill?.quantity?.unit.dimension.key !== "volume") return;
    if (isWithin(fill.quantity, bounds)) return;
    yield { at: fill, text: `${fill.written} is no fill of ${withArticle(kind!)} (${bounds.join(" to ")})` };
  },
  say: ({ text }) => ({ text: `${text}. Look at the figure and its unit.` }),
});

function* capacitiesOf({ facts }: Stock): Iterable<Unlikely> {
  const at = facts.one("capacity")?.slots.capacity;
  if (at?.quantity?.unit.dimension.key !== "volume") return;
  const fill = facts.one("fill")?.slots.fill;
  if (!isWithin(at.quantity, capacities))
    yield { at, text: `${at.written} is no capacity of a container (${capacities.join(" to ")})` };
  else if (volumeOf(fill?.quantity)?.times(mostTimesFill).isBelow(inBase(at.quantity)))
    yield { at, text: `A capacity of ${at.written} is more than ten times the fill, ${fill!.written}` };
}

function* strengths({ facts, reconstitute }: Stock): Iterable<Unlikely> {
  const stated = [facts.one("strength")?.slots.strength, reconstitute?.one("gives")?.slots.strength];
  for (const at of stated) {
    if (at?.quantity?.unit.dimension !== heaviest.unit.dimension) continue;
    if (inBase(at.quantity).isAbove(inBase(heaviest)))
      yield { at, text: `${at.written} is no strength that a solution has: 1 mL of it would weigh more than 2 g` };
  }
}
