import { recipeCheck } from "../check.ts";
import { example } from "../example.ts";
import { isNotKnown } from "../unread-facts.ts";
import { finished } from "./stable-rows.ts";

const dose = "  dose           from 500 mg up to 10 g for any route\n";
const rule: [string, string] = [dose, `${dose}  container-material  pvc unsuitable\n`];

export const containerMaterialNotStated = recipeCheck({
  name: "container-material-not-stated",
  family: "stability",
  severity: "warning",
  title: "A drug asks for a container material, and the container does not say its own",
  why: "Whether the container suits the drug cannot be judged.",
  source: "Paclitaxel investigational drug sheet (US National Cancer Institute, 1994, solution preparation)",
  rows: ["technique-rules protein-or-oil-compatibility"],
  bad: example(rule, ["  made-of    polyolefin\n", ""]),
  good: example(rule),
  *find({ runs }) {
    for (const run of runs) {
      for (const { vessel, drugs } of finished(run)) {
        if (!vessel.stock || vessel.stock.facts.one("made-of")) continue;
        if (isNotKnown(vessel.stock.facts, "made-of")) continue;
        for (const drug of drugs) {
          const unsuitable = drug.facts
            .all("container-material")
            .filter((f) => f.slots.verdict.choice === "unsuitable");
          if (unsuitable.length > 0)
            yield {
              at: vessel.material.item,
              stock: vessel.stock,
              drug,
              names: unsuitable.map((f) => f.slots.material.name),
            };
        }
      }
    }
  },
  say: ({ stock, drug, names }) => ({
    text: `${stock.name.name} does not say what it is made of, and ${names.join(", ")} does not suit ${drug.name.name}. Add \`made-of\` to stock ${stock.name.name}.`,
  }),
});
