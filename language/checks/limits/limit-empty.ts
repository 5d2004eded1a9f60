import type { BoundSlot, Spot } from "../../model/slots.ts";
import { inBase } from "../../quantities/quantity.ts";
import { declarationCheck } from "../check.ts";
import { boundsIn, everyCondition, everyFact } from "../declared-facts.ts";
import { example } from "../example.ts";

export const limitEmpty = declarationCheck<{ at: Spot; bound: BoundSlot }>({
  name: "limit-empty",
  family: "limits",
  severity: "error",
  title: "Limits between which nothing lies",
  why: "Whatever is compared with them is refused, or nothing ever is: the figures are the wrong way round.",
  source: "common practice",
  bad: example(["from 500 mg up to 10 g for any route", "above 4 g up to 4 g for route oral"]),
  good: example(),
  *find({ declaration }) {
    const bounds = [...everyFact(declaration).flatMap(boundsIn), ...everyCondition(declaration).map((c) => c.bound)];
    for (const bound of bounds) {
      const low = bound.low?.measure.quantity;
      const high = bound.high?.measure.quantity;
      if (!bound.low || !bound.high || !low || !high || low.unit.dimension !== high.unit.dimension) continue;
      const side = inBase(low).compare(inBase(high));
      if (side > 0 || (side === 0 && !(bound.low.included && bound.high.included)))
        yield { at: { start: bound.start, end: bound.end }, bound };
    }
  },
  say: ({ bound }) => ({
    text: `No figure is ${bound.low!.included ? "from" : "above"} ${bound.low!.measure.written} and ${bound.high!.included ? "up to" : "below"} ${bound.high!.measure.written}. Put the smaller figure first, or correct it.`,
  }),
});
