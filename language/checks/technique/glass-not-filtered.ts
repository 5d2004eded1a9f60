import { happened } from "../../bench/run.ts";
import { thingName } from "../../bench/things.ts";
import { recipeCheck } from "../check.ts";
import { example } from "../example.ts";
import { oneOf } from "../showing.ts";
import { mayHaveDone, partsMoved } from "../unread-steps.ts";

export const glassNotFiltered = recipeCheck({
  name: "glass-not-filtered",
  family: "technique",
  severity: "error",
  title: "Liquid from a glass ampoule reaches the patient container unfiltered",
  why: "Glass particles go into the preparation: 65.6 particles per ampoule with a plain needle against 1.3 with a filter needle in one study; other studies found less difference, so the site may grade this.",
  source: "Glass particle contamination: influence of aspiration methods and ampule types",
  rows: ["technique-rules amp-filter-draw", "technique-rules amp-filter-evidence-mixed"],
  bad: example(
    ["    attach filter to syringe\n", "    attach needle to syringe\n"],
    ["    replace filter on syringe with needle\n", ""],
    ["    keep mag, filter, needle", "    replace needle on syringe with filter\n    keep mag, filter, needle"],
  ),
  good: example(),
  happening: "glass-not-filtered",
  find: ({ run }) =>
    happened(run, "glass-not-filtered")
      .filter((h) => !mayHaveDone(partsMoved, run, h.step))
      .map((h) => ({ at: h.spot, step: h.step, ...h.data })),
  say: ({ step, target, drugs }) => ({
    text: `Step ${step.number} brings ${drugs.length > 0 ? oneOf(drugs) : "liquid"} from a glass ampoule into ${thingName(target)} and it has passed no filter of 5 micrometre or finer. Draw through a 5 micrometre filter and change to a plain needle, or change to a filter before injecting.`,
  }),
});
