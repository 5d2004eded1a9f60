import { happened } from "../../bench/run.ts";
import { thingName } from "../../bench/things.ts";
import { recipeCheck } from "../check.ts";
import { followsSlip, isWithdrawalUnknown } from "../consequences.ts";
import { example } from "../example.ts";
import { ml } from "../showing.ts";
import { slipsOf } from "../slips.ts";

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
  find: ({ run }) =>
    happened(run, "container-overfilled")
      .filter(
        (h) => !(followsSlip(h.step, run) || slipsOf(run).changesVolumeOf(h.data.vessel) || isWithdrawalUnknown(run)),
      )
      .map((h) => ({ at: h.spot, step: h.step, ...h.data })),
  say: ({ step, vessel, volume, capacity }) => ({
    text: `After step ${step.number} ${thingName(vessel)} would hold ${ml(volume)}, but it can hold ${ml(capacity)}. Withdraw first, or use a larger container.`,
  }),
});
