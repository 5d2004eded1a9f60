import { happened, type Run } from "../../bench/run.ts";
import type { Vessel } from "../../bench/things.ts";
import { vesselKey } from "../../bench/vessels.ts";
import { recipeCheck } from "../check.ts";
import { isUnknownIn } from "../consequences.ts";
import { example } from "../example.ts";
import { slipsOf } from "../slips.ts";
import { isMostlyUndeclared } from "../undeclared-fluids.ts";
import { isNotKnown } from "../unread-facts.ts";
import { mayHaveDone } from "../unread-steps.ts";
import { isToldAsStranger } from "../volumes/strangers.ts";
import {
  concentrationText,
  finished,
  type Judged,
  judgeRows,
  mainFluid,
  mainFluids,
  type StableRow,
} from "./stable-rows.ts";

export const stabilityNotCovered = recipeCheck({
  name: "stability-not-covered",
  family: "stability",
  severity: "warning",
  title: "No stability row of the drug fits the finished preparation",
  why: "A study in another fluid, bag, strength or place says nothing about this preparation.",
  source:
    "Master formulation and compounding records (study page restating USP <795> and <797> 2023, February 2024, list of the master record): the reference behind the date",
  rows: ["record-elements mfr-reference"],
  bad: example(["    at             room-temperature\n", "    at             refrigerator\n"]),
  good: example(),
  *find(context) {
    const { recipe, runs } = context;
    // With the overfill of a bag the strength is another, and the row that is missing is the same.
    const told = new Set<string>();
    for (const run of runs) {
      for (const { vessel, drugs } of finished(run)) {
        const preparation = recipe.preparations.find((p) => p.name.name === vessel.name);
        for (const limit of preparation?.facts.all("use-within") ?? []) {
          for (const drug of drugs) {
            const judged = judgeRows(drug, vessel, limit.slots.place.name, run);
            if (judged.some((j) => j.misses.length === 0)) continue;
            if (judged.some(isOfStrength) && slipsOf(run).reaches(vessel)) continue;
            if (isForStranger(judged, vessel, run)) continue;
            if (
              (mayHaveDone(makesFinal, run) || isMadeUpToUnknown(run)) &&
              judged.some(({ misses }) => misses.length === 1)
            )
              continue;
            if (judged.some(({ row, misses }) => misses.length === 1 && isRowUnread(row, vessel))) continue;
            const key = `${limit.start} ${drug.name.name} ${vesselKey(vessel)}`;
            if (told.has(key)) continue;
            told.add(key);
            // Where the run could not work out the figures, a row that fits otherwise is given the benefit: totals are not judged.
            yield { at: limit, limit, drug, vessel, run, judged };
          }
        }
      }
    }
  },
  say: ({ limit, drug, vessel, run, judged }) => {
    const name = drug.name.name;
    const { time, place } = limit.slots;
    const nearest = [...judged].sort((a, b) => a.misses.length - b.misses.length)[0];
    const fluids = mainFluids(vessel, run).join(" with ");
    const what = `${name} ${concentrationText(drug, vessel, run)} ${fluids ? `in ${fluids}` : "undiluted"} at ${place.name}`;
    const why = nearest
      ? `The nearest row is ${nearest.misses.join("; ")}.`
      : `Drug ${name} has no \`stable\` row for a mixture.`;
    return {
      text: `Use within ${time.written}, but no stability row covers ${what}. ${why} Add the row of a study or label that does, or change the limit.`,
      related: nearest ? [{ at: { ...nearest.row.spot, chunk: drug.chunk }, text: "the nearest row" }] : [],
    };
  },
});

/** To a volume that is not known nothing is made up, and nothing is moved by it, which is told at the step. */
function isMadeUpToUnknown(run: Run): boolean {
  return (
    run.unknown &&
    happened(run, "figure-not-known").some(({ step, data }) => step.verb === "make" || data.figure === "diluent-volume")
  );
}

/** Steps that decide in which fluid and light a preparation ends. */
const makesFinal = ["make", "inject", "add", "transfer", "fill", "pool", "protect"] as const;

const conditions = ["in", "at", "concentration", "made-of", "light"] as const;

/** Nothing but the strength does not fit, and a step that makes it is told as wrong. */
function isOfStrength({ misses, atOtherStrength }: Judged): boolean {
  return atOtherStrength && misses.length === 1;
}

/** A condition of the row, or of what the container is made of, stands in a line that is told as unread. */
function isRowUnread(row: StableRow, vessel: Vessel): boolean {
  return conditions.some((word) => isNotKnown(row, word)) || isNotKnown(vessel.stock?.facts, "made-of");
}

/**
 * Nothing but the fluid does not fit, and that is told: it does not belong there, a wrong volume of another leaves it as the most, or what
 * else goes in cannot be known.
 */
function isForStranger(judged: readonly Judged[], vessel: Vessel, run: Run): boolean {
  if (!judged.some(({ misses, inOtherFluid }) => inOtherFluid && misses.length === 1)) return false;
  if (isUnknownIn(vessel, run) || isMostlyUndeclared(vessel, run)) return true;
  const main = mainFluid(vessel, run);
  return main !== undefined && (isToldAsStranger(main, run) || slipsOf(run).changesVolumeOf(vessel));
}
