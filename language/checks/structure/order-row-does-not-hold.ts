import { holds } from "../../bench/order-rows.ts";
import type { Run } from "../../bench/run.ts";
import type { Recipe } from "../../model/declaration.ts";
import type { Fact, Facts } from "../../model/facts.ts";
import type { Spot } from "../../model/slots.ts";
import { preferredUnit, showQuantity } from "../../quantities/quantity.ts";
import { recipeCheck } from "../check.ts";
import { isTold } from "../consequences.ts";
import { powderExample } from "../example.ts";

/** Facts of which one row has to hold for every patient once one is stated. */
const words = [
  "dose",
  "diluent",
  "diluent-volume",
  "final-volume",
  "method",
  "access",
  "infuse-over",
  "infuse-at",
] as const;
/** Facts that need not hold for everybody; two of them must not. */
const bounds = ["round", "maximum", "minimum"] as const;
/** What the dose follows from is judged before there is one. */
const beforeDose: readonly string[] = ["dose", "additive", ...bounds];

export const orderRowDoesNotHold = recipeCheck<{ at: Spot; word: string; point: string; count: number }>({
  name: "order-row-does-not-hold",
  family: "structure",
  severity: "error",
  title:
    "A fact of the order, a material or a preparation that depends on the dose, with no row or two rows for some dose",
  why: "For a patient in the gap nothing is ordered; for one in the overlap two things are.",
  source: "common practice",
  bad: powderExample([
    "    diluent-volume  100 mL\n    method          add-to-bag\n    route           intravenous\n    access          peripheral\n    infuse-over     60 min",
    "    diluent-volume  100 mL  when dose above 600 mg\n    method          add-to-bag\n    route           intravenous\n    access          peripheral\n    infuse-over     60 min",
  ]),
  good: powderExample([
    "    diluent-volume  100 mL\n    method          add-to-bag\n    route           intravenous\n    access          peripheral\n    infuse-over     60 min",
    "    diluent-volume  100 mL  when dose up to 600 mg\n    method          add-to-bag\n    route           intravenous\n    access          peripheral\n    infuse-over     60 min",
  ]),
  *find(context) {
    const { recipe, runs } = context;
    // Most recipes know no conditions, and are done with at a glance.
    if (!recipe.chunk.text.includes("when")) return;
    yield* materialsThatOverlap(recipe, runs);
    // A row for everybody beside one for some is told where the second stands.
    const isTwiceTold = isTold("fact-stated-twice", context);
    const isToldAlready = (facts: Facts | undefined, word: string) =>
      isTwiceTold && facts?.isStatedTwice(word) === true;
    yield* rowsThatOverlap(recipe, runs, isToldAlready);
    for (const word of [...words, ...bounds]) {
      const mayLack = bounds.some((bound) => bound === word);
      const rows = recipe.order?.all(word) ?? [];
      // A row that cannot be read may be the one that holds, or the second.
      if (!rows.some((r) => r.when) || recipe.order?.isUnread(word)) continue;
      if (isToldAlready(recipe.order, word)) continue;
      for (const run of runs) {
        const doses = beforeDose.includes(word) ? [] : run.doses;
        const here = rows.map((r) => (r.when ? holds(r.when, run.point, doses) : true));
        // A condition that cannot be judged is told where it stands.
        if (here.includes(undefined)) continue;
        const count = here.filter((h) => h).length;
        if (count === 1 || (count === 0 && mayLack)) continue;
        yield { at: rows[0]!, word, point: pointText(run), count };
      }
    }
  },
  say: ({ word, point, count }) => ({
    text: `For ${point}, ${count === 0 ? `no row of \`${word}\` holds` : `${count} rows of \`${word}\` hold`}. Let exactly one hold for every order.`,
  }),
});

/** Of two rows of a material that both hold the first is taken; that none holds is told at the steps that name it. */
function* materialsThatOverlap(
  { materials }: Recipe,
  runs: readonly Run[],
): Iterable<{ at: Spot; word: string; point: string; count: number }> {
  for (const material of materials) {
    const rows = materials.filter(({ name }) => name.name === material.name.name);
    // Two rows without a condition are told where the second stands.
    if (rows[0] !== material || rows.filter((row) => !row.when).length > 1 || rows.length < 2) continue;
    for (const run of runs) {
      const here = rows.map((row) => (row.when ? holds(row.when, run.point, run.doses) : true));
      const count = here.filter((h) => h).length;
      if (here.includes(undefined) || count < 2) continue;
      yield { at: material.name, word: material.name.name, point: pointText(run), count };
    }
  }
}

/** Additives, and what a preparation states: rows of the same thing, of which two must not hold. */
function* rowsThatOverlap(
  { order, preparations }: Recipe,
  runs: readonly Run[],
  isToldAlready: (facts: Facts | undefined, word: string) => boolean,
): Iterable<{ at: Spot; word: string; point: string; count: number }> {
  const groups = new Map<string, { word: string; rows: Fact[] }>();
  const lines = [...(order?.all("additive") ?? []), ...preparations.flatMap(({ facts }) => facts.every())] as Fact[];
  // Without a condition two of a kind are told where the second stands.
  if (!lines.some(({ when }) => when)) return;
  for (const fact of lines) {
    const { drug, ion, salt, place, container, time } = fact.slots as Partial<
      Record<string, { name?: string; written?: string }>
    >;
    const block = preparations.findIndex(({ facts }) => facts.every().includes(fact));
    if (isToldAlready(preparations[block]?.facts, fact.word)) continue;
    const key = [fact.word, block, drug?.name, ion?.name, salt?.name, place?.name, container?.name, time?.name].join(
      " ",
    );
    const group = groups.get(key) ?? { word: fact.word, rows: [] };
    group.rows.push(fact);
    groups.set(key, group);
  }
  for (const { word, rows } of groups.values()) {
    if (rows.length < 2 || !rows.some(({ when }) => when)) continue;
    for (const run of runs) {
      const doses = beforeDose.includes(word) ? [] : run.doses;
      const here = rows.map(({ when }) => (when ? holds(when, run.point, doses) : true));
      const count = here.filter((h) => h).length;
      if (here.includes(undefined) || count < 2) continue;
      yield { at: rows[0]!, word, point: pointText(run), count };
    }
  }
}

function pointText(run: Run): string {
  const given = run.doses[0]?.given;
  const at = [...run.point].map(([input, value]) => `${input} ${showQuantity(value)}`);
  return [...at, given ? `a dose of ${showQuantity(preferredUnit(given))}` : ""].filter((t) => t).join(" and ");
}
