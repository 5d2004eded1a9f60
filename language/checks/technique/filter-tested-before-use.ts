import { happened } from "../../bench/run.ts";
import { thingName } from "../../bench/things.ts";
import { recipeCheck } from "../check.ts";
import { example } from "../example.ts";
import { mayHaveDone } from "../unread-steps.ts";

const passes = ["draw", "inject", "pass", "add", "fill", "pool", "reconstitute", "make"] as const;
const push = "    inject syringe into bag\n";
const withFilter: [string, string][] = [["    needle       needle-18-gauge", "    needle       syringe-filter-0.2um"]];

export const filterTestedBeforeUse = recipeCheck({
  name: "filter-tested-before-use",
  family: "technique",
  severity: "warning",
  title: "A filter tested before anything has passed it",
  why: "The bubble point shows that the filter held while it was used; one that tears afterwards was whole in the test.",
  source: "common practice",
  bad: example(...withFilter, [push, `    test bubble-point of needle\n${push}`]),
  good: example(...withFilter, [push, `${push}    test bubble-point of needle\n`]),
  happening: "filter-tested-before-use",
  find: ({ run }) =>
    happened(run, "filter-tested-before-use")
      .filter(({ step }) => !mayHaveDone(passes, run, step))
      .map((h) => ({ at: h.spot, step: h.step, ...h.data })),
  say: ({ step, filter }) => ({
    text: `Step ${step.number} tests ${thingName(filter)}, through which nothing has passed yet. Test it after the filtering.`,
  }),
});
