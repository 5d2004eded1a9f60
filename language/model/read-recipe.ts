/** Reads a recipe block: order, materials, steps, preparations, intermediates, label text, examples, deviations. */
import { type Block, headWord, type Line } from "../syntax/tree.ts";
import { headBeyond } from "./block-head.ts";
import type { Chunk, Deviation, Example, Material, Named, Recipe } from "./declaration.ts";
import {
  exampleFacts,
  intermediateFacts,
  labelTextFacts,
  orderFacts,
  preparationFacts,
  recipeFacts,
} from "./declarations/recipe.ts";
import { type FactTable, type Problem, usualTrailing } from "./facts.ts";
import { form } from "./form.ts";
import { isMisfit, looseWord, matchForm } from "./form-match.ts";
import { showForm } from "./form-shown.ts";
import { nearNames } from "./near.ts";
import { readFacts, readTrailing, trailingStart, type WordHomes } from "./read-facts.ts";
import { ReadStep } from "./read-step.ts";
import type { ConditionSlot, NameSlot, Spot, TextSlot } from "./slots.ts";

const recipeBlocks = ["order", "materials", "steps", "preparation", "intermediate", "label-text", "example"] as const;
export const materialForm = form("<name:name> [<count?:number> x] <item:name>");
export const deviationForm = form("deviation <check:name> [on <on?:name>]");
export const onlyForm = form("only when <value:condition>");
const deviationTrailing = ["because", "by", "until"] as const;

interface Base {
  name: NameSlot;
  chunk: Chunk;
  head: Spot;
}

export function readRecipe(base: Base, block: Block, problems: Problem[], homes: WordHomes): Recipe {
  const deviations: Deviation[] = [];
  const body = block.body.filter((entry) => {
    if (entry.kind !== "line" || looseWord(entry.tokens[0]) !== "deviation") return true;
    const read = readDeviation(entry, problems);
    if (read) deviations.push(read);
    return false;
  });
  const rules = { title: "recipe", table: recipeFacts, inner: recipeBlocks, trailing: usualTrailing };
  const own = readFacts({ ...block, body }, rules, homes);
  problems.push(...own.problems);
  const recipe: Recipe = {
    ...base,
    kind: "recipe",
    facts: own.facts,
    order: undefined,
    materials: [],
    materialsSpot: undefined,
    steps: [],
    stepsSpot: undefined,
    preparations: [],
    intermediates: [],
    labelText: undefined,
    examples: [],
    deviations,
  };
  for (const inner of own.blocks) readInner(recipe, inner, problems, homes);
  return recipe;
}

function readInner(recipe: Recipe, block: Block, problems: Problem[], homes: WordHomes): void {
  const word = headWord(block)!.toLowerCase();
  const spot = { start: block.head.start, end: block.head.end };
  headBeyond(block, ["preparation", "intermediate", "example"].includes(word) ? 2 : 1, problems);
  const twice = (already: unknown) => {
    if (already !== undefined) problems.push({ name: "block-stated-twice", ...spot, data: { word } });
    return already !== undefined;
  };
  const facts = <T extends FactTable>(table: T) => {
    const read = readFacts(block, { title: word, table, inner: [], trailing: usualTrailing }, homes);
    problems.push(...read.problems);
    return read.facts;
  };
  switch (word) {
    case "order":
      if (!twice(recipe.order)) recipe.order = facts(orderFacts);
      return;
    case "materials":
      if (twice(recipe.materialsSpot)) return;
      recipe.materialsSpot = spot;
      readMaterials(recipe.materials, block, problems);
      return;
    case "steps":
      if (twice(recipe.stepsSpot)) return;
      recipe.stepsSpot = spot;
      readSteps(recipe, block, [], problems);
      return;
    case "label-text":
      if (!twice(recipe.labelText)) recipe.labelText = facts(labelTextFacts);
      return;
    case "example":
      recipe.examples.push(readExample(block, facts(exampleFacts), spot));
      return;
    case "preparation":
      pushNamed(recipe.preparations, block, facts(preparationFacts), problems);
      return;
    default:
      pushNamed(recipe.intermediates, block, facts(intermediateFacts), problems);
  }
}

function pushNamed<T extends FactTable>(
  into: Named<T>[],
  block: Block,
  facts: Named<T>["facts"],
  problems: Problem[],
): void {
  const second = block.head.tokens[1];
  const spot = { start: block.head.start, end: block.head.end };
  if (second?.kind !== "word") {
    if (block.readAs !== undefined) return; // the head is told, with what it lacks
    const word = block.head.tokens[0]!.text;
    problems.push({
      name: "declaration-without-name",
      ...spot,
      data: { word, found: second?.text ?? "", fault: second?.fault ?? "", extra: "" },
    });
    return;
  }
  into.push({ name: { name: second.text, start: second.start, end: second.end }, facts, ...spot });
}

function readExample(block: Block, facts: Example["facts"], spot: Spot): Example {
  const second = block.head.tokens[1];
  const title: TextSlot | undefined =
    second?.kind === "string" ? { text: second.text.slice(1, -1), start: second.start, end: second.end } : undefined;
  return { title, facts, ...spot };
}

function readMaterials(into: Material[], block: Block, problems: Problem[]): void {
  for (const entry of block.body) {
    if (entry.kind === "block") {
      unknownBlock(entry, "materials", [], problems);
      continue;
    }
    if (entry.isStray) continue;
    const cut = trailingStart(entry.tokens, ["when"]);
    const match = matchForm(materialForm, entry.tokens.slice(0, cut));
    if (isMisfit(match)) {
      misfitLine(entry, match.at, cut, materialForm.text, match.expected, "fact-not-understood", problems);
      continue;
    }
    const trailing = emptyTrailing();
    readTrailing(entry.tokens.slice(cut), ["when"], trailing, problems);
    // Under a condition that cannot be read nobody knows whether it stands there.
    if (cut < entry.tokens.length && !trailing.when) continue;
    const { name, count, item } = match.slots;
    into.push({ name, count, item, when: trailing.when, start: entry.start, end: entry.end });
  }
}

function readSteps(recipe: Recipe, block: Block, only: ConditionSlot[], problems: Problem[]): void {
  const { chunk, steps } = recipe;
  for (const entry of block.body) {
    if (entry.kind === "line") {
      const { isStray, tokens, start, end } = entry;
      if (!isStray) steps.push(new ReadStep(chunk, steps.length + 1, tokens, only, start, end));
      continue;
    }
    if (looseWord(entry.head.tokens[0]) !== "only") {
      unknownBlock(entry, "steps", ["only"], problems);
      continue;
    }
    const match = matchForm(onlyForm, entry.head.tokens);
    if (isMisfit(match)) {
      misfitLine(
        entry.head,
        match.at,
        entry.head.tokens.length,
        onlyForm.text,
        match.expected,
        "step-not-understood",
        problems,
      );
      continue;
    }
    readSteps(recipe, entry, [...only, match.slots.value], problems);
  }
}

function readDeviation(line: Line, problems: Problem[]): Deviation | undefined {
  const cut = trailingStart(line.tokens, deviationTrailing);
  const match = matchForm(deviationForm, line.tokens.slice(0, cut));
  if (isMisfit(match)) {
    misfitLine(line, match.at, cut, deviationForm.text, match.expected, "fact-not-understood", problems);
    return undefined;
  }
  const trailing = emptyTrailing();
  readTrailing(line.tokens.slice(cut), deviationTrailing, trailing, problems);
  const { because, by, until } = trailing;
  return { check: match.slots.check, on: match.slots.on, because, by, until, start: line.start, end: line.end };
}

function emptyTrailing(): Parameters<typeof readTrailing>[2] {
  return { source: undefined, when: undefined, because: undefined, by: undefined, until: undefined };
}

function misfitLine(
  line: Line,
  at: number,
  cut: number,
  formText: string,
  expected: string[],
  name: "fact-not-understood" | "step-not-understood",
  problems: Problem[],
): void {
  const token = at < cut ? line.tokens[at] : undefined;
  const last = line.tokens[Math.max(0, cut - 1)];
  problems.push({
    name,
    start: token?.start ?? last?.end ?? line.start,
    end: token?.end ?? last?.end ?? line.end,
    data: {
      form: showForm(formText),
      expected: expected.join(" or "),
      found: token?.text ?? "",
      fault: token?.fault ?? "",
    },
  });
}

function unknownBlock(block: Block, inside: string, known: string[], problems: Problem[]): void {
  const first = block.head.tokens[0];
  problems.push({
    name: "unknown-block",
    start: first?.start ?? block.open.start,
    end: first?.end ?? block.open.end,
    data: { word: first?.text ?? "{", inside, known, near: nearNames(first?.text ?? "", known) },
  });
}
