import { inBase } from "../../quantities/quantity.ts";
import { declarationCheck } from "../check.ts";
import { standardAnd } from "../example.ts";
import { ml } from "../showing.ts";

const syringe = (graduation: string) => `device syringe-12mL {
  kind        syringe
  capacity    12 mL
  graduation  ${graduation}
}
`;

export const scaleBeyondCapacity = declarationCheck({
  name: "scale-beyond-capacity",
  family: "stock",
  severity: "error",
  title: "A syringe whose marks or dead space do not fit its capacity",
  why: "Every reading is rounded to the marks; marks too far apart make every draw wrong.",
  source: "common practice",
  bad: standardAnd(syringe("20 mL")),
  good: standardAnd(syringe("0.5 mL")),
  *find({ declaration }) {
    if (declaration.kind !== "device") return;
    const capacity = declaration.facts.one("capacity")?.slots.capacity.quantity;
    if (capacity?.unit.dimension.key !== "volume") return;
    const rows = [
      { what: "marks stand", measure: declaration.facts.one("graduation")?.slots.interval },
      { what: "dead space is", measure: declaration.facts.one("dead-space")?.slots.volume },
    ];
    for (const { what, measure } of rows) {
      if (measure?.quantity?.unit.dimension.key !== "volume") continue;
      const value = inBase(measure.quantity);
      if (value.isAtLeast(inBase(capacity)) || !value.isPositive())
        yield { at: measure, name: declaration.name.name, what, value, capacity: inBase(capacity) };
    }
  },
  say: ({ name, what, value, capacity }) => ({
    text: `On ${name} the ${what} ${ml(value)}${what.startsWith("marks") ? " apart" : ""}, and its capacity is ${ml(capacity)}. Correct one of them.`,
  }),
});
