import { happened } from "../../bench/run.ts";
import { thingName } from "../../bench/things.ts";
import { recipeCheck } from "../check.ts";
import { powderExample } from "../example.ts";
import { ml } from "../showing.ts";

export const givesAndDisplacementDiffer = recipeCheck({
  name: "gives-and-displacement-differ",
  family: "volumes",
  severity: "error",
  title: "The label's strength and the displacement disagree",
  why: "One of the two is wrong.",
  source: "common practice",
  rows: [],
  bad: powderExample(["  content    500 mg", '  content    500 mg\n  displacement  0.4 mL  source guide "vancomycin"']),
  good: powderExample(),
  happening: "gives-and-displacement-differ",
  find: ({ run }) =>
    happened(run, "gives-and-displacement-differ").map((h) => ({ at: h.spot, step: h.step, ...h.data })),
  say: ({ vessel, fromGives, fromDisplacement }) => ({
    text: `For ${thingName(vessel)} the label's strength gives ${ml(fromGives)} in all, the displacement ${ml(fromDisplacement)}. Correct the one that is wrong.`,
  }),
});
