import { fixedLine } from "../../bench/lines.ts";
import { finalVolumeAt } from "../../bench/order.ts";
import { thingName } from "../../bench/things.ts";
import { recipeCheck } from "../check.ts";
import { example } from "../example.ts";
import { ml } from "../showing.ts";

const capacity = "  capacity   150 mL\n";
const line = `${capacity}  priming-volume  2 mL  source guide "bags"\n`;
const diluent = "    diluent-volume  100 mL\n";

export const lineVolumeNotSaid = recipeCheck({
  name: "line-volume-not-said",
  family: "volumes",
  severity: "warning",
  title: "Whether the ordered volume counts what the line holds is not said",
  why: "What stands in the line is missing from the reservoir, or is given on top of it: the pump runs shorter or longer than its label.",
  source: "common practice",
  bad: example([capacity, line], [diluent, `${diluent}    final-volume    108 mL\n`]),
  good: example(
    [capacity, line],
    [diluent, `${diluent}    final-volume    108 mL line included\n`],
    ["    tap mag\n", "    prime line of bag\n    tap mag\n"],
  ),
  *find({ run, recipe }) {
    const ordered = finalVolumeAt(recipe, run.point, run.doses);
    if (!ordered || ordered.slots.line) return;
    for (const vessel of run.finals) {
      const [filled] = vessel.lines.filter((each) => each.filled);
      const fixed = fixedLine(vessel);
      if (!filled && !fixed) continue;
      yield { at: ordered.slots.volume, volume: ordered.slots.volume.written, vessel, filled, fixed };
      return;
    }
  },
  say({ volume, vessel, filled, fixed }) {
    const held = filled ? (filled.holds ?? fixed) : fixed;
    const name = filled && filled.name !== vessel.name ? filled.name : `The line of ${thingName(vessel)}`;
    return {
      text: `${held ? `${name} holds ${ml(held)}` : `${name} is filled, and nobody declared what it holds`}; the order does not say whether its ${volume} count that. Write \`final-volume ${volume} line included\` or \`line excluded\`${held ? "" : ", and `priming-volume` with its source in the device"}.`,
      related: filled ? [{ at: filled.spot, text: "filled or connected here" }] : [],
    };
  },
});
