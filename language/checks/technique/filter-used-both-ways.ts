import { happened } from "../../bench/run.ts";
import { thingName } from "../../bench/things.ts";
import { recipeCheck } from "../check.ts";
import { stepBefore } from "../edits.ts";
import { example } from "../example.ts";
import { mayHaveDone, partsMoved } from "../unread-steps.ts";

export const filterUsedBothWays = recipeCheck({
  name: "filter-used-both-ways",
  family: "technique",
  severity: "error",
  title: "Pushed through the filter that was drawn through",
  why: "What the filter held back is washed into the dose.",
  source:
    "Aseptic technique brochure (public slide deck, undated, ampules panel); Filter needle usage (discussion by pharmacy technicians); no standard text found",
  rows: ["technique-rules amp-filter-one-way", "technique-rules amp-filter-either-side"],
  bad: example(["    replace filter on syringe with needle\n", ""]),
  good: example(),
  happening: "filter-used-both-ways",
  find: ({ run }) =>
    happened(run, "filter-used-both-ways")
      .filter((h) => !mayHaveDone(partsMoved, run, h.step))
      .map((h) => ({ at: h.spot, step: h.step, ...h.data })),
  say: ({ step, filter, first, way }) => ({
    text: `${thingName(filter)} was ${first.way === "drawn" ? "drawn" : "pushed"} through in step ${first.step.number} and is now ${way === "drawn" ? "drawn" : "pushed"} through in step ${step.number}. A filter serves one way only: replace it before.`,
    related: [{ at: first.step.step, text: `${first.way} through here` }],
  }),
  fixes: ({ step, filter, way }, { chunk, run }) => {
    // A needle that no step before has put on anything; one on another syringe cannot be taken.
    const used = new Set(run.steps.filter((s) => s.number < step.number).flatMap((s) => s.touched));
    const plain = [...run.groups.values()].find((g) =>
      g.things.some((t) => t.is === "part" && t.kind === "needle" && !used.has(t)),
    );
    const on = filter.on?.name ?? step.movements[0]?.from?.name;
    if (way === "drawn" || !plain || on === undefined) return [];
    return [
      {
        title: `Replace ${filter.name} with ${plain.name} before`,
        edits: [stepBefore(chunk.text, step.step, `replace ${filter.name} on ${on} with ${plain.name}`)],
      },
    ];
  },
});
