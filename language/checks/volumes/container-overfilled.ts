import { happened, type Run } from "../../bench/run.ts";
import { thingName } from "../../bench/things.ts";
import { recipeCheck } from "../check.ts";
import { followsSlip, isWithdrawalUnknown } from "../consequences.ts";
import { example } from "../example.ts";
import { ml } from "../showing.ts";
import { slipsOf } from "../slips.ts";
import { mayHaveDone } from "../unread-steps.ts";

export const containerOverfilled = recipeCheck({
  name: "container-overfilled",
  family: "volumes",
  severity: "error",
  title: "More liquid than the container can hold",
  why: "An overfilled container can leak, or ends weaker than ordered.",
  source: "common practice",
  rows: [],
  bad: example(["  capacity   150 mL", "  capacity   105 mL"]),
  good: example(),
  happening: "container-overfilled",
  find({ runs }) {
    // What the label promises is told first; a bag that only its overfill makes too full is told as such.
    for (const run of runs) {
      const found = overfilledIn(run);
      if (found.length > 0) return found;
    }
    return [];
  },
  say: ({ step, vessel, volume, capacity, overfill, fullest }) => ({
    text: `After step ${step.number} ${thingName(vessel)} would hold ${ml(volume)}${overfill === "label" ? "" : " with its overfill"}${fullest ? `, and ${ml(fullest.volume)} after step ${fullest.step.number}` : ""}, but it can hold ${ml(capacity)}. Withdraw first, or use a larger container.`,
  }),
});

/** A container that is too small is too small at every step behind: it is told at the first, with what it would hold at its fullest. */
function overfilledIn(run: Run) {
  const all = happened(run, "container-overfilled")
    .filter(
      (h) =>
        !(
          followsSlip(h.step, run) ||
          slipsOf(run).changesVolumeOf(h.data.vessel) ||
          isWithdrawalUnknown(run) ||
          mayHaveDone(["withdraw"], run, h.step)
        ),
    )
    .map((h) => ({ at: h.spot, step: h.step, ...h.data, overfill: run.overfill }));
  const names = all.map(({ vessel }) => `${vessel.name} ${vessel.index} ${vessel.of}`);
  return all.flatMap((first, i) => {
    if (names.indexOf(names[i]!) !== i) return [];
    const alike = all.filter((_, k) => names[k] === names[i]);
    const fullest = alike.reduce((most, each) => (each.volume.isAbove(most.volume) ? each : most));
    return [{ ...first, fullest: fullest.volume.isAbove(first.volume) ? fullest : undefined }];
  });
}
