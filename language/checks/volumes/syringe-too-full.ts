import { happened } from "../../bench/run.ts";
import { thingName } from "../../bench/things.ts";
import { recipeCheck } from "../check.ts";
import { example } from "../example.ts";
import { ml } from "../showing.ts";

export const syringeTooFull = recipeCheck({
  name: "syringe-too-full",
  family: "volumes",
  severity: "warning",
  title: "A syringe filled beyond the share that the site allows",
  why: "A plunger near its end comes out easily.",
  source:
    "Aseptic techniques - using a syringe and needle (teaching laboratory, public university page PHSC 212_02, undated); 75 to 80 percent of capacity: Choose the most appropriate syringe (pharmacist letter, 2024)",
  rows: ["technique-rules syringe-size"],
  bad: example(["  expiry-ahead   30 days", "  expiry-ahead   30 days\n  largest-share  75 %"]),
  good: example(),
  happening: "syringe-too-full",
  find: ({ run }) => happened(run, "syringe-too-full").map((h) => ({ at: h.spot, step: h.step, ...h.data })),
  say: ({ syringe, total, most }) => ({
    text: `Fills ${thingName(syringe)} to ${ml(total)}; the site allows ${ml(most)}. Use a larger syringe or draw in two steps.`,
  }),
});
