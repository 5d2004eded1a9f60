import type { Vessel } from "../../bench/things.ts";
import type { Spot } from "../../model/slots.ts";
import { recipeCheck } from "../check.ts";
import { example } from "../example.ts";
import { finalOrEach, ml } from "../showing.ts";
import { isNotKnown } from "../unread-facts.ts";

export const capacityNotStated = recipeCheck<{ at: Spot; vessel: Vessel }>({
  name: "capacity-not-stated",
  family: "volumes",
  severity: "note",
  title: "Liquid is added to a container of which nobody says how much it holds",
  why: "Whether it is overfilled was not checked, and must not look as if it had been.",
  source: "common practice",
  bad: example(["  capacity   150 mL\n", ""]),
  good: example(),
  *find({ run }) {
    if (run.unknown) return;
    const said = new Set<string>();
    for (const vessel of run.finals) {
      if (vessel.capacity || said.has(vessel.name)) continue;
      const filled = run.steps.some((s) => s.movements.some((m) => m.to === vessel && m.from !== vessel));
      if (!filled || isNotKnown(vessel.stock?.facts, "capacity")) continue;
      said.add(vessel.name);
      yield { at: vessel.material.name, vessel };
    }
  },
  say: ({ vessel }, { run }) => ({
    text: `${finalOrEach(vessel, run)} ends with ${ml(vessel.liquid.volume)}, and ${isNotKnown(vessel.stock?.facts, "capacity") ? `the \`capacity\` of ${itemOf(vessel)} cannot be read, so whether it fits was not checked. Mend it there.` : `${itemOf(vessel)} states no \`capacity\`, so whether it fits was not checked. Add the capacity from the maker.`}`,
  }),
});

function itemOf({ stock, name }: Vessel): string {
  return stock?.name.name ?? name;
}
