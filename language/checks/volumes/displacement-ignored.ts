import { happened } from "../../bench/run.ts";
import { thingName } from "../../bench/things.ts";
import { recipeCheck } from "../check.ts";
import { powderExample } from "../example.ts";

export const displacementIgnored = recipeCheck({
  name: "displacement-ignored",
  family: "volumes",
  severity: "error",
  title: "A powder whose own volume is not known",
  why: "Powder takes up room; dividing by the diluent alone is wrong by several percent.",
  source:
    "How is ceftriaxone reconstituted (secondary page quoting the FDA label, undated, intravenous table): 9.6 mL to 1 g make 100 mg/mL",
  rows: ["technique-rules powder-displacement"],
  bad: powderExample(["    gives         50 mg/mL\n", ""]),
  good: powderExample(),
  happening: "displacement-ignored",
  find: ({ run }) => happened(run, "displacement-ignored").map((h) => ({ at: h.spot, step: h.step, ...h.data })),
  say: ({ vessel }) => ({
    text: `The stock of ${thingName(vessel)} states neither what the reconstitution gives nor the displacement; the powder is counted as taking no room. State \`gives\` or \`displacement\` from the label.`,
  }),
});
