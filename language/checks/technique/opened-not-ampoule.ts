import { happened } from "../../bench/run.ts";
import { thingName } from "../../bench/things.ts";
import { recipeCheck } from "../check.ts";
import { isContainerUnread } from "../consequences.ts";
import { withoutLine } from "../edits.ts";
import { example } from "../example.ts";

export const openedNotAmpoule = recipeCheck({
  name: "opened-not-ampoule",
  family: "technique",
  severity: "error",
  title: "Something opened that is no ampoule",
  why: "Vials and bags are entered through stopper or port; opened they are not sterile.",
  source: "common practice",
  rows: [],
  bad: example(["    disinfect bag\n", "    disinfect bag\n    open bag\n"]),
  good: example(),
  happening: "opened-not-ampoule",
  find: ({ run }) =>
    happened(run, "opened-not-ampoule")
      .filter(({ data }) => !isContainerUnread(data.vessel))
      .map((h) => ({ at: h.spot, step: h.step, ...h.data })),
  say: ({ vessel }) => ({
    text: `${thingName(vessel)} is a ${vessel.kind}; only ampoules are opened. Take the step out; disinfect and enter it.`,
  }),
  fixes: ({ step }, { chunk }) => [{ title: "Take the step out", edits: [withoutLine(chunk.text, step.step)] }],
});
