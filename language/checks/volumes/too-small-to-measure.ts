import { happened } from "../../bench/run.ts";
import { thingName } from "../../bench/things.ts";
import { recipeCheck } from "../check.ts";
import { isConsequence } from "../consequences.ts";
import { replaceText } from "../edits.ts";
import { example } from "../example.ts";
import { fittingSyringes, mostHeld } from "../fitting-syringes.ts";
import { ml } from "../showing.ts";
import { mayHaveDone } from "../unread-steps.ts";

export const tooSmallToMeasure = recipeCheck({
  name: "too-small-to-measure",
  family: "volumes",
  severity: "warning",
  title: "A volume too small for this syringe",
  why: "Below about a fifth of its capacity a syringe measures badly.",
  source:
    "Aseptic techniques - using a syringe and needle (teaching laboratory, public university page PHSC 212_02, undated); 20 percent of capacity: Choose the most appropriate syringe (pharmacist letter, 2024); from memory: an explicit dilution step below that",
  rows: ["technique-rules syringe-size", "technique-rules dilution-chain"],
  bad: example(["    syringe      syringe-10mL", "    syringe      syringe-50mL"]),
  good: example(),
  happening: "too-small-to-measure",
  find: (context) =>
    happened(context.run, "too-small-to-measure")
      .filter(
        ({ step }) =>
          !isConsequence(step, context.run, context) &&
          !(context.run.plan.broken && mayHaveDone(["make"], context.run)),
      )
      .map((h) => ({ at: h.spot, most: mostHeld(h.data.syringe, context.run), ...h.data })),
  say: ({ syringe, asked, smallest }) => ({
    text: `Measures ${ml(asked)} with ${thingName(syringe)}; below ${ml(smallest)} it measures badly. Use a smaller syringe, or dilute first and draw from the dilution.`,
  }),
  fixes: ({ syringe, asked, most }, { lookup, policy }) =>
    fittingSyringes(asked, most, lookup, policy)
      .slice(0, 1)
      .map((name) => ({ title: `Use ${name}`, edits: [replaceText(syringe.material.item, name)] })),
});
