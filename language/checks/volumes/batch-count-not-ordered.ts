import { recipeCheck } from "../check.ts";
import { replaceText } from "../edits.ts";
import { example } from "../example.ts";

const twoBags = (order: string) =>
  example(
    [
      'recipe magnesium-4g {\n  title  "Magnesium sulfate 4 g',
      'recipe magnesium-2g {\n  title  "Magnesium sulfate 2 g',
    ],
    ["    dose            4 g per bag\n", `    dose            2 g per bag\n${order}`],
    ["    bag          saline-bag-100", "    bag          2 x saline-bag-100"],
    ["inject syringe into bag", "inject 2 g from syringe into each of bag"],
    ["concentration  37.04 mg/mL", "concentration  19.23 mg/mL"],
  );

export const batchCountNotOrdered = recipeCheck({
  name: "batch-count-not-ordered",
  family: "volumes",
  severity: "warning",
  title: "Several containers are filled, and the order does not say how many",
  why: "Nobody can see whether one was forgotten or made too many, and how many doses one run gives.",
  source:
    "Master formulation and compounding records (study page restating USP <795> and <797> 2023, February 2024, list of the master record): quantities and strength are recomputed",
  rows: ["record-elements mfr-calculations"],
  bad: twoBags(""),
  good: twoBags("    makes           2 x bag\n"),
  *find({ recipe, run }) {
    const { order } = recipe;
    if (!order || order.one("makes") || order.isUnread("makes") || run.unknown) return;
    const into = new Set(run.steps.flatMap((s) => s.movements.map((m) => m.to)));
    for (const { name } of recipe.preparations) {
      const things = run.groups.get(name.name)?.things ?? [];
      const filled = things.filter((t) => t.is === "vessel" && into.has(t)).length;
      if (filled < 2) continue;
      const last = order.every().reduce((a, b) => (b.end > a.end ? b : a));
      const container =
        order.all("dose").map((d) => d.slots.container)[0] ??
        recipe.materials.find((m) => m.name.name === name.name)?.name;
      yield { at: container ?? name, name: name.name, filled, last };
    }
  },
  say: ({ name, filled }) => ({
    text: `The steps fill ${filled} x ${name}, and the order does not say how many it makes. Add \`makes ${filled} x ${name}\` to the order.`,
  }),
  fixes: ({ name, filled, last }) => [
    {
      title: `Order ${filled} x ${name}`,
      edits: [replaceText({ start: last.end, end: last.end }, `\n    makes           ${filled} x ${name}`)],
    },
  ],
});
