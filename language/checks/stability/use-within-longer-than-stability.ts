import { recipeCheck } from "../check.ts";
import { replaceText } from "../edits.ts";
import { example } from "../example.ts";
import { finished, isLonger, judgeRows } from "./stable-rows.ts";

export const useWithinLongerThanStability = recipeCheck({
  name: "use-within-longer-than-stability",
  family: "stability",
  severity: "error",
  title: "Used for longer than the drug is known to be stable",
  why: "After the last studied hour nobody knows how much drug is left or what it has become.",
  source:
    "Master formulation and compounding records (study page restating USP <795> and <797> 2023, February 2024, list of the master record): the reference behind the date",
  rows: ["record-elements mfr-reference", "record-elements mfr-bud-storage"],
  bad: example(["    for            24 h\n", "    for            12 h\n"]),
  good: example(),
  *find({ recipe, runs }) {
    for (const run of runs) {
      for (const { vessel, drugs } of finished(run)) {
        const preparation = recipe.preparations.find((p) => p.name.name === vessel.name);
        for (const limit of preparation?.facts.all("use-within") ?? []) {
          for (const drug of drugs) {
            const fitting = judgeRows(drug, vessel, limit.slots.place.name, run).filter((j) => j.misses.length === 0);
            const times = fitting.flatMap(({ row }) => row.all("for").map((fact) => ({ fact, row })));
            if (times.length === 0 || !times.every(({ fact }) => isLonger(limit.slots.time, fact.slots.time))) continue;
            const longest = times.reduce((best, each) =>
              isLonger(each.fact.slots.time, best.fact.slots.time) ? each : best,
            );
            yield { at: limit, limit, drug, longest };
          }
        }
      }
    }
  },
  say: ({ limit, drug, longest }) => ({
    text: `Use within ${limit.slots.time.written} at ${limit.slots.place.name}, but ${drug.name.name} is declared stable for ${longest.fact.slots.time.written} under these conditions. Shorten the limit to ${longest.fact.slots.time.written}, or give a row with a longer study.`,
    related: [
      {
        at: { start: longest.fact.start, end: longest.fact.end, chunk: drug.chunk },
        text: `stable for ${longest.fact.slots.time.written}`,
      },
    ],
  }),
  fixes: ({ limit, longest }) => [
    {
      title: `Use within ${longest.fact.slots.time.written}`,
      edits: [replaceText(limit.slots.time, longest.fact.slots.time.written)],
    },
  ],
});
