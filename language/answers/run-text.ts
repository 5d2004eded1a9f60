/**
 * A recipe followed at one order, as plain text to read: what is ordered, each step with its volume and what the containers hold
 * after it, and what the checks find at just this order. The same bench as everywhere; nothing is worked out here.
 */

import { orderInputs } from "../bench/order.ts";
import type { OrderPoint } from "../bench/order-rows.ts";
import { type Run, runRecipe } from "../bench/run.ts";
import type { StepRun } from "../bench/step-run.ts";
import { thingName, type Vessel } from "../bench/things.ts";
import { findingsAt } from "../checks/judge-recipe.ts";
import { checkNames } from "../checks/registry.ts";
import { ml } from "../checks/showing.ts";
import type { Library } from "../library.ts";
import { dateText } from "../model/dates.ts";
import type { Recipe } from "../model/declaration.ts";
import { showQuantity } from "../quantities/quantity.ts";
import { orderPoint } from "../sheet/order-point.ts";
import { isSheetRefusal, type SheetRefusal } from "../sheet/sheet.ts";
import { doseWorkings } from "../working/figures.ts";
import { movingWork } from "../working/moving.ts";
import { contentsText } from "./figures.ts";

/**
 * @param point as findings say it: `weight 50 kg`, `weight 12 kg and age 3 months`
 * @returns the text, or why there is none in a sentence
 */
export function runText(library: Library, file: string, name: string, point: string): { text: string } | SheetRefusal {
  const found = library
    .chunks(file)
    .flatMap((chunk) => chunk.reading.declarations.flatMap((d) => (d.kind === "recipe" ? [{ chunk, recipe: d }] : [])))
    .filter(({ recipe }) => recipe.name.name === name);
  const [only, second] = found;
  if (!only || second) {
    return { refusal: only ? `${found.length} recipes of this file are called ${name}.` : `${name} is not there now.` };
  }
  const { recipe, chunk } = only;
  const inputs = inputsOf(point);
  if (!inputs) return { refusal: `"${point}" is no order that can be followed. Write it as weight 50 kg.` };
  const at = orderPoint(recipe, inputs);
  if (isSheetRefusal(at)) return at;
  const around = library.surroundings();
  const run = runRecipe(recipe, around.lookup, around.policy, { point: at, overfill: "label" });
  const context = { ...around, chunk, reading: chunk.reading, declaration: recipe, checkNames };
  // Claims may speak of the whole range; they, and what does not depend on the order, stand in the findings of the file.
  const own = findingsAt(at, recipe, context, around).filter((f) => !("across" in f.check && f.check.across));
  const always = library.findings(file).filter((f) => {
    const isHere = chunk.base <= f.span.start && f.span.start <= chunk.base + chunk.text.length;
    return isHere && !f.overRange && (f.subject === "" || f.subject === `recipe ${name}`);
  });
  const told = new Map<string, string>();
  for (const f of own) told.set(`${f.name} ${f.message}`, findingLine(f, !!f.silencedBy));
  for (const f of always) told.set(`${f.name} ${f.message}`, findingLine(f, !!f.silenced));
  return {
    text: [
      ...headLines(recipe, at, dateText(around.asOf)),
      ...section("Order", orderLines(run)),
      ...section("Steps", allSteps(recipe, run)),
      ...section("Finished", finishedLines(run)),
      ...section("Findings at this order", told.size > 0 ? [...told.values()] : [nothingFound(run)]),
    ].join("\n"),
  };
}

function inputsOf(point: string): Map<string, string> | undefined {
  const inputs = new Map<string, string>();
  for (const part of point === "" ? [] : point.split(" and ")) {
    const input = orderInputs.find((each) => part.startsWith(`${each.replace("-", " ")} `));
    if (!input) return undefined;
    inputs.set(input, part.slice(input.length + 1));
  }
  return inputs;
}

function headLines(recipe: Recipe, point: OrderPoint, asOf: string): string[] {
  const at = [...point].map(([input, value]) => `${input.replace("-", " ")} ${showQuantity(value)}`).join(", ");
  const title = recipe.facts.one("title")?.slots.text.text;
  return [
    `${recipe.name.name}, followed for ${at === "" ? "its one order" : at}`,
    ...(title ? [title] : []),
    `As of ${asOf}, from the text as it stands in the editor. For reading: nothing written here changes the recipe.`,
  ];
}

function section(heading: string, lines: readonly string[]): string[] {
  return ["", heading, ...lines.map((line) => (line === "" ? "" : `  ${line}`))];
}

function orderLines(run: Run): string[] {
  const lines = doseWorkings(run).flatMap((w) => [`${w.label}: ${w.text}`, ...w.lines.map((l) => `  ${l.text}`)]);
  return lines.length > 0 ? lines : ["No dose can be worked out."];
}

function allSteps(recipe: Recipe, run: Run): string[] {
  const known = new Map<Vessel, string>();
  return run.steps.flatMap((step) => stepLines(recipe, run, step, known));
}

/** @param known what each container was last seen to hold */
function stepLines(recipe: Recipe, run: Run, step: StepRun, known: Map<Vessel, string>): string[] {
  const written = recipe.chunk.text.slice(step.step.start, step.step.end).replace(/\s+/g, " ");
  const lines = [`${step.number}. ${written}`];
  if (step.skipped) return [...lines, "   not for this order"];
  if (step.moved?.isPositive()) lines.push(`   moves ${ml(step.moved)}`);
  for (const { text } of movingWork(run, step)) lines.push(`   ${text}`);
  for (const [vessel, liquid] of step.after) {
    const held = liquid.volume.isPositive() ? contentsText(liquid, run) : "empty";
    // What a step only touches is not told again.
    if (step.moved?.isPositive() && held !== known.get(vessel)) lines.push(`   ${thingName(vessel)}: ${held}`);
    known.set(vessel, held);
  }
  return lines;
}

function finishedLines(run: Run): string[] {
  if (run.unknown) return ["Not known: a step or a figure could not be followed. The findings say which."];
  const lines = run.finals.map((vessel) => `${thingName(vessel)}: ${contentsText(vessel.liquid, run)}`);
  return lines.length > 0 ? lines : ["No finished container."];
}

function findingLine(
  { severity, name, message }: { severity: string; name: string; message: string },
  isSilenced: boolean,
): string {
  return `${severity} ${name}${isSilenced ? " (silenced by a deviation)" : ""}: ${message}`;
}

function nothingFound(run: Run): string {
  return run.unknown
    ? "None, but not everything could be judged: some figures are not known."
    : "No check found anything. That does not replace the pharmacist's check.";
}
