import type { Run } from "../../bench/run.ts";
import type { Vessel } from "../../bench/things.ts";
import { recipeCheck } from "../check.ts";
import { stepName } from "../showing.ts";
import { dilutionExample, gains } from "./intermediates.ts";

const declared = "  intermediate magnesium-250 {\n    in   working\n    at   250 mg/mL\n    use  at-once\n  }\n\n";

export const intermediateNotDeclared = recipeCheck({
  name: "intermediate-not-declared",
  family: "technique",
  severity: "warning",
  title: "A dilution made on the way that the recipe does not declare",
  why: "Without a declared strength and fate nobody checks what stands in the working container.",
  source: "common practice",
  bad: dilutionExample([declared, ""]),
  good: dilutionExample(),
  *find({ recipe, runs }) {
    const known = new Set(recipe.intermediates.flatMap((i) => i.facts.one("in")?.slots.container.name ?? []));
    for (const run of runs) {
      // One that is declared in a container that does not stand here is told there, and may be this one.
      if ([...known].some((name) => !run.groups.has(name))) continue;
      for (const { vessel, step } of workingContainers(run)) {
        if (!known.has(vessel.name)) yield { at: step.step, vessel, step };
      }
    }
  },
  say: ({ vessel, step }) => ({
    text: `${stepName(step)[0]!.toUpperCase()}${stepName(step).slice(1)} draws from ${vessel.name}, in which a drug was diluted, and the recipe declares no intermediate in it. Add \`intermediate NAME\` with \`in ${vessel.name}\`, its strength \`at\` and its \`use\`.`,
  }),
});

/** Containers in which a drug was brought together with something else and that are then drawn from, at the first such step. */
function workingContainers(run: Run) {
  const found = new Map<Vessel, Run["steps"][number]>();
  const mixtures = new Set<Vessel>();
  for (const step of run.steps) {
    for (const { from, how } of step.movements) {
      const draws = how === "draw" || how === "transfer";
      if (draws && from && mixtures.has(from) && !found.has(from) && step.verb !== "sample") found.set(from, step);
    }
    for (const [vessel, liquid] of step.after) {
      // A powder in its own fluid is the product of its label, not a dilution of it.
      const excluded = run.finalNames.has(vessel.name) || vessel.kind === "powder-vial";
      if (!excluded && gains(step, vessel) && liquid.drugs.length > 0 && liquid.stocks.length > 1) mixtures.add(vessel);
    }
  }
  return [...found].map(([vessel, step]) => ({ vessel, step }));
}
