import { happened } from "../../bench/run.ts";
import { thingName } from "../../bench/things.ts";
import { recipeCheck } from "../check.ts";
import { powderExample } from "../example.ts";

export const reconstitutedNoPowder = recipeCheck({
  name: "reconstituted-no-powder",
  family: "volumes",
  severity: "error",
  title: "Reconstituted although there is no powder",
  why: "The step does not fit the container.",
  source: "common practice",
  rows: [],
  bad: powderExample([
    "  container  powder-vial\n  content    500 mg",
    "  container  vial\n  strength   50 mg/mL\n  fill       10 mL",
  ]),
  good: powderExample(),
  happening: "reconstituted-no-powder",
  find: ({ run }) => happened(run, "reconstituted-no-powder").map((h) => ({ at: h.spot, step: h.step, ...h.data })),
  say: ({ step, vessel }) => ({
    text: `Step ${step.number} reconstitutes ${thingName(vessel)}, which holds no powder. Name the powder vial, or use \`add\`.`,
  }),
});
