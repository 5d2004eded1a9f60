import type { NumberSlot } from "../../model/slots.ts";
import { recipeCheck } from "../check.ts";
import { followsSlip } from "../consequences.ts";
import { replaceText } from "../edits.ts";
import { example } from "../example.ts";

export const containersLeftOver = recipeCheck<{ at: NumberSlot; name: string; stated: number; used: number }>({
  name: "containers-left-over",
  family: "volumes",
  severity: "warning",
  across: true,
  title: "More containers stated than the steps use",
  why: "A container too many on the bench is opened, or drawn from, sooner or later.",
  source: "common practice",
  bad: example(["    mag          magnesium-ampoule", "    mag          3 x magnesium-ampoule"]),
  good: example(),
  *find({ recipe, runs }) {
    for (const material of recipe.materials) {
      const { count } = material;
      const stated = count?.value?.isWhole() ? Number(count.value.toText()) : undefined;
      if (!count || stated === undefined) continue;
      let used = 0;
      for (const run of runs) {
        if (run.unknown) return;
        const things = run.groups.get(material.name.name)?.things ?? [];
        if (things.some((t) => t.is !== "vessel" || !t.stock) || run.finalNames.has(material.name.name)) return;
        // A powder vial that was only reconstituted is left over all the same, but for one that is itself what is made.
        const moved = new Set(run.steps.flatMap((s) => s.movements.map((m) => m.from)));
        used = Math.max(used, things.filter((t) => t.is === "vessel" && moved.has(t)).length);
      }
      if (used === 0 || used >= stated) continue;
      const isTold = runs.some((run) =>
        run.steps.some((s) => followsSlip(s, run) && s.movements.some(({ from }) => from?.name === material.name.name)),
      );
      if (!isTold) yield { at: count, name: material.name.name, stated, used };
    }
  },
  say: ({ name, stated, used }) => ({
    text: `${stated} of ${name} stand on the bench; the steps use ${used}. Write \`${used} x\`, or leave the number out: it is then worked out.`,
  }),
  fixes: ({ at, used }) => [{ title: `Say ${used}`, edits: [replaceText(at, String(used))] }],
});
