import type { Run } from "../../bench/run.ts";
import type { NameSlot } from "../../model/slots.ts";
import { recipeCheck } from "../check.ts";
import { replaceText } from "../edits.ts";
import { example } from "../example.ts";
import { slipsOf } from "../slips.ts";

/** For one finished container; from memory: a dose that takes more than a few is looked at twice. Wide, since six are used for some. */
const usual = 6;

export const manyContainers = recipeCheck<{
  at: NameSlot;
  name: string;
  count: number;
  finals: number;
  item: NameSlot;
}>({
  name: "many-containers",
  family: "volumes",
  severity: "warning",
  title: "Many containers for one preparation, and nobody has said how many",
  why: "A dose that takes unusually many containers is often a tenfold slip in the order, in the strength or in the fill.",
  source:
    "from memory: ISMP, a dose that takes more than a few dosage units is to be questioned; the number six is common practice",
  bad: example(["  fill       10 mL\n", "  fill       1 mL\n  one-filter-for  20  source guide\n"]),
  good: example(
    ["  fill       10 mL\n", "  fill       1 mL\n  one-filter-for  20  source guide\n"],
    ["    mag          magnesium-ampoule", "    mag          8 x magnesium-ampoule"],
  ),
  *find({ run }) {
    if (run.unknown) return;
    const finals = Math.max(run.finals.length, 1);
    for (const { name, material, stated, things } of run.groups.values()) {
      const count = things.length;
      if (stated !== undefined || count <= usual * finals || run.finalNames.has(name)) continue;
      if (!isSlipTold(name, run)) yield { at: material.name, name, count, finals, item: material.item };
    }
  },
  say: ({ name, count, finals, item }) => ({
    text: `The steps take ${count} of ${name}${finals > 1 ? ` for ${finals} containers` : ""}. Look at the dose, and at strength and fill of ${item.name}; where so many are meant, write \`${count} x\` in \`materials\`.`,
  }),
  fixes: ({ item, count }) => [
    { title: `Say ${count} x`, edits: [replaceText({ start: item.start, end: item.start }, `${count} x `)] },
  ],
});

/** A step that draws from them is told as wrong, or works with what such a step made. */
function isSlipTold(name: string, run: Run): boolean {
  const slips = slipsOf(run);
  return run.steps.some(
    (step) => (slips.wrong.has(step) || slips.follows(step)) && step.movements.some(({ from }) => from?.name === name),
  );
}
