import { recipeCheck } from "../check.ts";
import { oneOf } from "../showing.ts";
import { dilutionExample, lives } from "./intermediates.ts";

export const intermediateNotMade = recipeCheck({
  name: "intermediate-not-made",
  family: "technique",
  severity: "error",
  title: "An intermediate dilution that no step makes",
  why: "What is declared and never made was meant for another container, or its steps were lost.",
  source: "common practice",
  bad: dilutionExample(["    in   working\n", "    in   workin\n"]),
  good: dilutionExample(),
  *find({ recipe, runs }) {
    for (const run of runs) {
      if (run.plan.broken || run.unknown) continue;
      const made = lives(run);
      for (const intermediate of recipe.intermediates) {
        const container = intermediate.facts.one("in")?.slots.container;
        if (!container || made.some((life) => life.intermediate === intermediate)) continue;
        const filled = [...run.groups.values()]
          .filter(
            ({ name, item, things }) =>
              item?.kind === "device" && things[0]?.is === "vessel" && !run.finalNames.has(name),
          )
          .map(({ name }) => name);
        yield {
          at: container,
          name: intermediate.name.name,
          container: container.name,
          known: run.groups.has(container.name),
          filled,
        };
      }
    }
  },
  say: ({ name, container, known, filled }) => ({
    text: known
      ? `${name} is declared in ${container}, and no step puts liquid into ${container}. Write its steps, or name the container that is filled.`
      : `${name} is declared in ${container}, which does not stand in materials. Name the container that the steps fill${filled.length > 0 ? `, such as ${oneOf(filled)}` : ""}.`,
  }),
});
