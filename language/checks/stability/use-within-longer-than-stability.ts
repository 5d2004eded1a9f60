import { rowsAt } from "../../bench/order-rows.ts";
import { isLongerTime } from "../../bench/stable-rows.ts";
import { timeLeft, waitedSince } from "../../bench/waited.ts";
import type { Drug } from "../../model/declaration.ts";
import type { MeasureSlot, Spot } from "../../model/slots.ts";
import { showQuantity } from "../../quantities/quantity.ts";
import { recipeCheck } from "../check.ts";
import { replaceText } from "../edits.ts";
import { example } from "../example.ts";
import { finished, judgeRows } from "./stable-rows.ts";

type UseWithin = Spot & { slots: { time: MeasureSlot; place: { name: string } } };

interface TooLong {
  at: UseWithin;
  limit: UseWithin;
  drug: Drug;
  fact: Spot & { slots: { time: MeasureSlot } };
  left: NonNullable<ReturnType<typeof timeLeft>>;
}

export const useWithinLongerThanStability = recipeCheck<TooLong>({
  name: "use-within-longer-than-stability",
  family: "stability",
  severity: "error",
  title: "Used for longer than the drug is known to be stable",
  why: "After the last studied hour nobody knows how much drug is left or what it has become.",
  source:
    "Master formulation and compounding records (study page restating USP <795> and <797> 2023, February 2024, list of the master record): the reference behind the date",
  rows: [
    "record-elements mfr-reference",
    "record-elements mfr-bud-storage",
    "beyond-use-dates bud-min-of-stability-and-table",
  ],
  bad: example(["    for            24 h\n", "    for            12 h\n"]),
  good: example(),
  *find({ recipe, runs }) {
    for (const run of runs) {
      for (const { vessel, drugs } of finished(run)) {
        const preparation = recipe.preparations.find((p) => p.name.name === vessel.name);
        for (const limit of rowsAt(preparation?.facts.all("use-within") ?? [], run)) {
          const broken: TooLong[] = [];
          for (const drug of drugs) {
            const fitting = judgeRows(drug, vessel, limit.slots.place.name, run).filter((j) => j.misses.length === 0);
            const times = fitting.flatMap(({ row }) =>
              row.all("for").map((fact) => {
                const left = timeLeft(fact.slots.time, waitedSince(row, drug.name.name, vessel, run));
                return { fact, left };
              }),
            );
            const stated = limit.slots.time.quantity;
            if (times.length === 0 || !times.every(({ left }) => isLongerTime(stated, left?.time))) continue;
            const longest = times.reduce((best, each) =>
              isLongerTime(each.left?.time, best.left?.time) ? each : best,
            );
            broken.push({ at: limit, limit, drug, fact: longest.fact, left: longest.left! });
          }
          // The shortest of several drugs binds: one limit is one slip.
          if (broken.length > 0)
            yield broken.reduce((least, each) => (isLongerTime(least.left.time, each.left.time) ? each : least));
        }
      }
    }
  },
  say: ({ limit, drug, fact, left }) => ({
    text: `Use within ${limit.slots.time.written} at ${limit.slots.place.name}, but ${drug.name.name} is declared stable for ${left.written} under these conditions. ${left.time.value.isPositive() ? `Shorten the limit to ${showQuantity(left.time)}` : "Shorten the waiting"}, or give a row with a longer study.`,
    related: [
      { at: { start: fact.start, end: fact.end, chunk: drug.chunk }, text: `stable for ${fact.slots.time.written}` },
    ],
  }),
  fixes: ({ limit, left }) =>
    left.time.value.isPositive()
      ? [
          {
            title: `Use within ${showQuantity(left.time)}`,
            edits: [replaceText(limit.slots.time, showQuantity(left.time))],
          },
        ]
      : [],
});
