import { happened } from "../../bench/run.ts";
import { thingName } from "../../bench/things.ts";
import { recipeCheck } from "../check.ts";
import { example } from "../example.ts";

export const bagsInSeries = recipeCheck({
  name: "bags-in-series",
  family: "technique",
  severity: "error",
  title: "Two flexible bags joined in series",
  why: "Residual air of the first bag is drawn into the patient.",
  source: "Vancomycin premix directions for use (public medical wiki quoting the label, undated, caution)",
  rows: ["technique-rules no-series"],
  bad: example(
    ["    bag          saline-bag-100", "    bag          saline-bag-100\n    bag2         saline-bag-100"],
    ["    disinfect bag\n", "    connect bag2 to bag\n    disinfect bag\n"],
  ),
  good: example(),
  happening: "bags-in-series",
  find: ({ run }) => happened(run, "bags-in-series").map((h) => ({ at: h.spot, step: h.step, ...h.data })),
  say: ({ first, second }) => ({
    text: `${thingName(first)} and ${thingName(second)} are joined in series. Use one bag, or transfer.`,
  }),
});
