import { happened } from "../../bench/run.ts";
import { recipeCheck } from "../check.ts";
import { isTold } from "../consequences.ts";
import { replaceText } from "../edits.ts";
import { example } from "../example.ts";
import { wordsNotRead } from "../unread-materials.ts";

const method = "    method          add-to-bag\n";

export const batchCountDiffers = recipeCheck({
  name: "batch-count-differs",
  family: "volumes",
  severity: "error",
  title: "The order makes another number of containers than stands on the bench or is filled",
  why: "A container too many goes out unfilled; one too few stretches the batch.",
  source:
    "Master formulation and compounding records (study page restating USP <795> and <797> 2023, February 2024, list of the master record): quantities and strength are recomputed",
  rows: ["record-elements mfr-calculations"],
  bad: example([method, `    makes           2 x bag\n${method}`]),
  good: example([method, `    makes           1 x bag\n${method}`]),
  *find({ recipe, runs, reading }) {
    const fact = recipe.order?.one("makes");
    const count = fact?.slots.count;
    if (!fact || !count?.value?.isWhole()) return;
    const name = fact.slots.what.name;
    const wanted = Number(count.value.toText());
    for (const run of runs) {
      const things = run.groups.get(name)?.things;
      if (!things) {
        // Told where a step names it.
        if (happened(run, "unknown-thing").some(({ data }) => data.name === name)) continue;
        if (wordsNotRead(reading, recipe).has(name)) continue;
        yield { at: fact, count, name, wanted, there: undefined, filled: 0 };
        continue;
      }
      if (run.unknown) continue;
      const into = new Set(run.steps.flatMap((s) => s.movements.map((m) => m.to)));
      const filled = things.filter((t) => t.is === "vessel" && into.has(t)).length;
      // All of the steps that fill push an empty syringe.
      if (filled === 0 && things.length === wanted && isTold("nothing-to-push", run)) {
        if (happened(run, "nothing-to-push").length > 0) continue;
      }
      if (things.length !== wanted || filled !== wanted)
        yield { at: fact, count, name, wanted, there: things.length, filled };
    }
  },
  say: ({ name, wanted, there, filled }) => ({
    text:
      there === undefined
        ? `The order makes ${wanted} x ${name}, and ${name} does not stand in materials. Name the finished container.`
        : there !== wanted
          ? `The order makes ${wanted} x ${name}; ${there} x ${name} ${there === 1 ? "stands" : "stand"} in materials. Correct the number in the order or in materials.`
          : `The order makes ${wanted} x ${name}; the steps fill ${filled}. Fill each of them, or correct the order.`,
  }),
  fixes: ({ count, wanted, there, filled }) =>
    there !== undefined && there !== wanted && filled === there
      ? [{ title: `Make ${there}`, edits: [replaceText(count, String(there))] }]
      : [],
});
