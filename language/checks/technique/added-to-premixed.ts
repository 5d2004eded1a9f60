import { happened } from "../../bench/run.ts";
import { thingName } from "../../bench/things.ts";
import { recipeCheck } from "../check.ts";
import { example } from "../example.ts";

export const addedToPremixed = recipeCheck({
  name: "added-to-premixed",
  family: "technique",
  severity: "error",
  title: "A drug added to a ready-to-use container",
  why: "Stability of the mixture is unknown.",
  source: "Vancomycin premix directions for use (public medical wiki quoting the label, undated)",
  rows: ["technique-rules premix-no-additive"],
  bad: example(["  capacity   150 mL", "  capacity   150 mL\n  premixed   yes"]),
  good: example(),
  happening: "added-to-premixed",
  find: ({ run }) => happened(run, "added-to-premixed").map((h) => ({ at: h.spot, step: h.step, ...h.data })),
  say: ({ vessel }) => ({ text: `${thingName(vessel)} is ready to use; nothing is added to it. Take a plain bag.` }),
});
