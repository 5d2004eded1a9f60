import { happened } from "../../bench/run.ts";
import { thingName } from "../../bench/things.ts";
import { recipeCheck } from "../check.ts";
import { example } from "../example.ts";

export const returnedToStock = recipeCheck({
  name: "returned-to-stock",
  family: "technique",
  severity: "error",
  title: "Drawn drug pushed back into its stock container",
  why: "The stock is no longer what its label says.",
  source:
    "Instructions for withdrawal of a parenteral dose from a drug vial (public medical-algorithms site, undated, closing rules)",
  rows: ["technique-rules no-return-to-stock"],
  bad: example(
    [
      "    expel air from syringe\n",
      "    inject 2 mL from syringe into mag\n    draw 2 mL from mag into syringe\n    expel air from syringe\n",
    ],
    ["    attach filter to syringe\n", "    attach needle to syringe\n"],
    ["    replace filter on syringe with needle", "    replace needle on syringe with filter"],
  ),
  good: example(),
  happening: "returned-to-stock",
  find: ({ run }) => happened(run, "returned-to-stock").map((h) => ({ at: h.spot, step: h.step, ...h.data })),
  say: ({ step, vessel, syringe }) => ({
    text: `Step ${step.number} pushes what was drawn into ${thingName(syringe)} back into ${thingName(vessel)}. Discard it instead.`,
  }),
});
