import { rowAt } from "../../bench/order-rows.ts";
import { recipeCheck } from "../check.ts";
import { example } from "../example.ts";
import { isNotKnown } from "../unread-facts.ts";

export const overfillNotStated = recipeCheck({
  name: "overfill-not-stated",
  family: "volumes",
  severity: "warning",
  title: "A part of a bag is given, or its rate is set by the strength, and the bag's overfill is not stated",
  why: "A bag holds more than its label says, so each mL holds less drug than the label volume tells; given whole, that does not matter.",
  source:
    "Understanding and managing IV container overfill (Institute for Safe Medication Practices, 2013, problem description)",
  rows: ["technique-rules overfill-matters-when"],
  bad: example(["    infuse-over     4 h\n", "    infuse-over     4 h\n    use             part-of-container\n"]),
  good: example(
    ["    infuse-over     4 h\n", "    infuse-over     4 h\n    use             part-of-container\n"],
    ["  capacity   150 mL\n", '  capacity   150 mL\n  overfill   0 mL to 1 mL  source guide "bags"\n'],
  ),
  *find({ recipe, run }) {
    const order = recipe.order;
    const use = order?.one("use");
    const method = rowAt(order?.all("method"), run)?.slots.method.choice;
    if (!use || (use.slots.use.choice !== "part-of-container" && use.slots.use.choice !== "titrated")) return;
    if (method !== "add-to-bag" && method !== "withdraw-first") return;
    for (const name of new Set(run.finals.map((vessel) => vessel.name))) {
      const vessel = run.finals.find((each) => each.name === name)!;
      if ((vessel.kind !== "bag" && vessel.kind !== "bottle") || !vessel.stock || vessel.stock.facts.one("overfill"))
        continue;
      if (isNotKnown(vessel.stock.facts, "overfill")) continue;
      yield {
        at: vessel.material.name,
        use,
        vessel,
        stock: vessel.stock,
        titrated: use.slots.use.choice === "titrated",
        withdrawn: method === "withdraw-first",
      };
    }
  },
  say: ({ use, vessel, stock, titrated, withdrawn }) => ({
    text: `${titrated ? `The rate of ${vessel.name} is set by its strength` : `Only a part of ${vessel.name} is given`}, and ${withdrawn ? "only the volume that is added is withdrawn before" : `the drug is added to the ${vessel.kind} as it is`}, but ${stock.name.name} states no \`overfill\`, so the strength holds for the label volume only. State the overfill of ${stock.name.name}, or use another method.`,
    related: [
      { at: { start: use.start, end: use.end }, text: "the use is said here" },
      { at: { start: stock.head.start, end: stock.head.end, chunk: stock.chunk }, text: `the ${vessel.kind}` },
    ],
  }),
});
