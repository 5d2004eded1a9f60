import { fixedLine } from "../../bench/lines.ts";
import { finalVolumeAt } from "../../bench/order.ts";
import type { Run } from "../../bench/run.ts";
import { type Line, thingName, type Vessel } from "../../bench/things.ts";
import type { Exact } from "../../quantities/exact.ts";
import { recipeCheck } from "../check.ts";
import { example } from "../example.ts";
import { ml } from "../showing.ts";

const materials = "    needle       needle-18-gauge\n";
const primed = (volume: string): [string, string][] => [
  [
    "recipe magnesium-4g {",
    `device pump-line {\n  kind  tubing\n  priming-volume  3 mL  source guide "sets"\n}\n\nrecipe magnesium-4g {`,
  ],
  ["    diluent-volume  100 mL\n", "    diluent-volume  100 mL\n    final-volume    108 mL line excluded\n"],
  [materials, `${materials}    flush        saline-bag-100\n    set          pump-line\n`],
  ["expiry of mag, bag\n", "expiry of mag, bag, flush\n"],
  [
    "    tap mag\n",
    `    disinfect flush\n    prime set with ${volume} from flush\n    connect set to bag\n    tap mag\n`,
  ],
];

export const lineNotPrimed = recipeCheck({
  name: "line-not-primed",
  family: "technique",
  severity: "error",
  title: "A line that the order speaks of is not filled",
  why: "What is left in the line is air; it goes into the patient, or stops the pump.",
  source: "common practice",
  bad: example(...primed("1 mL")),
  good: example(...primed("3 mL")),
  *find({ run, recipe }) {
    const ordered = finalVolumeAt(recipe, run.point, run.doses);
    if (run.unknown || !ordered?.slots.line) return;
    for (const vessel of run.finals) {
      const short = vessel.lines.find(isShort);
      if (short) {
        yield { at: short.spot, vessel, line: short, fixed: undefined };
        return;
      }
      if (vessel.lines.length > 0 || !isGiven(vessel, run)) continue;
      yield { at: ordered.slots.line, vessel, line: undefined, fixed: fixedLine(vessel) };
      return;
    }
  },
  say({ vessel, line: short, fixed }) {
    if (short?.filled && short.holds)
      return {
        text: `${short.name} is filled with ${ml(short.filled)} and holds ${ml(short.holds)}: ${ml(short.holds.minus(short.filled))} of air stay in it. Prime with ${ml(short.holds)} at least.`,
      };
    if (short)
      return {
        text: `${short.name} is connected to ${thingName(vessel)} and was never filled. ${vessel.of > 1 ? `Prime each of them before: \`prime each of ${short.name}\`` : "Prime it before"}.`,
      };
    return {
      text: `The order speaks of the line of ${thingName(vessel)}, and no step fills one. Add ${remedy(vessel, fixed)}, or take \`line\` out of the order.`,
    };
  },
});

function isShort({ filled, holds: full }: Line): boolean {
  return filled === undefined || full?.isAbove(filled) === true;
}

/** Something is in it, so that there is a preparation that a line could be missing from. */
function isGiven({ liquid }: Vessel, { unknown }: Run): boolean {
  return !unknown && liquid.volume.isPositive();
}

function remedy(vessel: Vessel, fixed: Exact | undefined): string {
  return fixed
    ? `\`prime line of ${vessel.name}\``
    : `a set that is primed and connected, or \`priming-volume\` to the stock and \`prime line of ${vessel.name}\``;
}
