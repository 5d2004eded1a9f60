/** What a word means where it stands: the value and how it comes about, the facts behind a name, the rule behind a check. */
import { planOf } from "../bench/plan.ts";
import type { Run } from "../bench/run.ts";
import { verbsByWord } from "../bench/verbs/index.ts";
import { checkByName } from "../checks/registry.ts";
import { ml } from "../checks/showing.ts";
import type { Library } from "../library.ts";
import type { Recipe } from "../model/declaration.ts";
import { looseWord } from "../model/form-match.ts";
import { showForm } from "../model/form-shown.ts";
import { factTables } from "../model/read-chunk.ts";
import type { Spot } from "../model/slots.ts";
import { findUnit } from "../quantities/unit.ts";
import type { Token } from "../syntax/tree.ts";
import { useWithinWorkings, worstCaseWorkings } from "../working/limits.ts";
import { movingWork } from "../working/moving.ts";
import { rateWorkings } from "../working/rates.ts";
import type { Working } from "../working/working.ts";
import { describe, plain } from "./describe.ts";
import { afterText, contentsText, countText, pointWords, runsOf, spread } from "./figures.ts";
import { headWords } from "./head-words.ts";
import type { LastGood } from "./last-good.ts";
import { meantBy, type Occurrence, occurrencesIn } from "./occurrences.ts";
import { blockWordOf, chunkAt, type PlaceInFile, placeIn, tokenAt } from "./place.ts";
import { placeBefore } from "./shifted.ts";

export interface Hover extends Spot {
  markdown: string;
}

/** Offsets in the file. */
export function hoverAt(library: Library, file: string, offset: number, lastGood?: LastGood): Hover | undefined {
  const chunk = chunkAt(library, file, offset);
  if (!chunk) return undefined;
  const now = offset - chunk.base;
  const earlier = lastGood?.of(file, chunk);
  const before = earlier && placeBefore(earlier.edit, now);
  if (!earlier || before === undefined) return hoverIn(library, placeIn(file, chunk, now));
  // A broken line elsewhere takes no figure away: the recipe as it was is asked, and the place moved back.
  const found = hoverIn(library, placeIn(file, earlier.chunk, before));
  const by = now - before;
  return found && { ...found, start: found.start + by, end: found.end + by };
}

function hoverIn(library: Library, place: PlaceInFile): Hover | undefined {
  if (place.inComment) return undefined;
  const token = tokenAt(place);
  if (!token) return undefined;
  const markdown = textFor(library, place, token);
  const { base } = place.chunk;
  return markdown === "" ? undefined : { start: base + token.start, end: base + token.end, markdown };
}

function textFor(library: Library, place: PlaceInFile, token: Token): string {
  const { declaration } = place;
  const name = declaration && occurrencesIn(declaration).find((o) => o.at.start === token.start);
  if (name) return ofName(library, place, name);
  if (token.kind === "word") {
    const known = ofWord(place, token);
    if (known !== "") return known;
  }
  if (token.kind === "number" || token.kind === "unit" || token.kind === "word" || token.kind === "equals") {
    const worked = ofFigure(library, place, token);
    if (worked !== "") return worked;
  }
  return token.kind === "unit" ? ofUnit(token) : "";
}

function ofName(library: Library, place: PlaceInFile, name: Occurrence): string {
  if (name.kinds.includes("check")) {
    const check = checkByName.get(name.name);
    return check
      ? `**${check.name}** (${check.severity}): ${check.title}.\n\n${check.why}\n\nSource: ${plain(check.source)}`
      : "";
  }
  if (!name.recipe)
    return meantBy(library, name)
      .map((d) => describe(library, d))
      .join("\n\n");
  const material = name.recipe.materials.find((m) => m.name.name === name.name);
  const runs = planOf(name.recipe).broken ? [] : runsOf(library, name.recipe);
  if (!material) return finishedTexts(library, name.recipe, runs, name.name).join("\n\n");
  const parts = [`**${name.name}**: ${material.item.name}`];
  const count = countText(runs, name.name);
  if (count) parts.push(`${count} needed`);
  const index = stepIndex(name.recipe, place, runs[0]);
  const held = index === undefined ? undefined : afterText(runs, index, name.name);
  if (held) parts.push(`Holds after this step: ${held}`);
  parts.push(...finishedTexts(library, name.recipe, runs, name.name));
  const item = library.declared(material.item.name).find((d) => d.kind === "stock" || d.kind === "device");
  if (item) parts.push(describe(library, item));
  return parts.join("\n\n");
}

function stepIndex(recipe: Recipe, place: PlaceInFile, run: Run | undefined): number | undefined {
  const step = recipe.steps.find((s) => s.start <= place.at && place.at <= s.end);
  const index = run?.steps.findIndex((s) => s.step === step) ?? -1;
  return step && index >= 0 ? index : undefined;
}

/** Fact words, verbs and block words; choices are described by the fact they stand in. */
function ofWord(place: PlaceInFile, token: Token): string {
  const tokens = place.line?.tokens ?? [];
  const first = looseWord(tokens[0]);
  const isFirst = tokens[0] === token;
  const block = blockWordOf(place.blocks.at(-1));
  if (place.headOf) {
    const words = first === undefined ? undefined : headWords[first];
    return isFirst && words ? `**${first}**: ${words}` : "";
  }
  if (block === "steps" || block === "only") {
    if (!isFirst) return "";
    return (verbsByWord.get(first ?? "") ?? [])
      .map((verb) => {
        const cautions = verb.cautions.map((c) => `- ${plain(c.text)}`).join("\n");
        return `**${verb.word}** ${plain(showForm(verb.form.text))}\n\n${verb.about}${cautions ? `\n\nAt the bench:\n${cautions}` : ""}`;
      })
      .join("\n\n---\n\n");
  }
  const def = first === undefined ? undefined : factTables[block]?.[first];
  if (!def || (!isFirst && token.text !== first)) return "";
  return isFirst ? `**${first}** ${plain(showForm(def.form.text))}\n\n${def.about}` : "";
}

/** How an ordered dose or a drawn volume comes about. */
function ofFigure(library: Library, place: PlaceInFile, token: Token): string {
  const recipe = place.declaration;
  if (recipe?.kind !== "recipe" || planOf(recipe).broken) return "";
  const runs = runsOf(library, recipe);
  const dose = runs[0]!.doses.findIndex((d) => d.start <= token.start && token.end <= d.end);
  if (dose >= 0) return [doseText(runs, dose), ...worstTexts(library, runs, runs[0]!.doses[dose]!.drug)].join("\n\n");
  const kept = useWithinTexts(library, recipe, runs, token);
  if (kept.length > 0) return kept.join("\n\n");
  const index = stepIndex(recipe, place, runs[0]);
  return index === undefined ? "" : stepText(runs, index);
}

function worstTexts(library: Library, runs: readonly Run[], drug: string): string[] {
  const around = library.surroundings();
  return workedTexts(runs, (run) => worstCaseWorkings(run, around).filter((w) => w.of[0] === drug));
}

/** All limits to how long a container may be kept, and which binds. */
function useWithinTexts(library: Library, recipe: Recipe, runs: readonly Run[], token: Spot): string[] {
  const around = library.surroundings();
  return recipe.preparations.flatMap((preparation) =>
    preparation.facts.all("use-within").flatMap((fact) => {
      if (token.start < fact.start || fact.end < token.end) return [];
      const key = `use-within ${preparation.name.name} ${fact.slots.place.name}`;
      return workedTexts(runs, (run) => useWithinWorkings(run, around).filter((w) => w.key === key));
    }),
  );
}

/** What is said of a finished container: how fast it is given, how long it may be kept. */
function finishedTexts(library: Library, recipe: Recipe, runs: readonly Run[], name: string): string[] {
  if (!recipe.preparations.some((p) => p.name.name === name)) return [];
  const around = library.surroundings();
  const isOwn = (w: Working) => recipe.preparations.length === 1 || w.of.includes(name);
  return [
    ...workedTexts(runs, (run) => rateWorkings(run).filter(isOwn)),
    ...workedTexts(runs, (run) => useWithinWorkings(run, around).filter(isOwn)),
  ];
}

/**
 * Label, figure and working; of a ranged order for each end, and once where both come to the same figure (then with the lines of
 * both).
 */
function workedTexts(runs: readonly Run[], workingsOf: (run: Run) => readonly Working[]): string[] {
  const heads = new Map<string, { ends: string[]; lines: Set<string> }>();
  for (const run of runs) {
    for (const { label, text, lines } of workingsOf(run)) {
      const head = `${plain(label)}: ${plain(text)}`;
      const known = heads.get(head) ?? { ends: [], lines: new Set<string>() };
      known.ends.push(plain(pointWords(run)));
      for (const { text: each } of lines) known.lines.add(`- ${plain(each)}`);
      heads.set(head, known);
    }
  }
  return [...heads].map(([head, { ends, lines }]) => {
    const at = ends.length < runs.length && ends[0] !== "" ? `At ${ends[0]}: ` : "";
    return [at + head, ...lines].join("\n");
  });
}

function doseText(runs: readonly Run[], index: number): string {
  return runs
    .flatMap((run) => {
      const dose = run.doses[index];
      if (!dose?.given || dose.working.length === 0) return [];
      return [`${plain(dose.drug)}: ${dose.working.map((l) => plain(l.text)).join("; ")}`];
    })
    .join("\n\n");
}

function stepText(runs: readonly Run[], index: number): string {
  const lines: string[] = [];
  const texts = runs.map((run) => {
    const step = run.steps[index];
    if (!step?.moved) return undefined;
    const from = step.movements[0]?.liquid;
    return { moved: ml(step.moved), of: from ? contentsText(from, run) : "" };
  });
  const first = texts[0];
  const last = texts.at(-1);
  if (!first || !last) return "";
  lines.push(`Moves ${spread(first.moved, last.moved)}.`);
  if (first.of !== "") lines.push(`The liquid: ${spread(first.of, last.of)}.`);
  const step = runs[0]!.steps[index]!;
  const amount = (step.slots as { amount?: { written: string } }).amount?.written;
  if (amount && first.of !== "") lines.push(`Asked for: ${plain(amount)}.`);
  lines.push(...stepWorking(runs, index));
  return lines.join("\n\n");
}

/** The lines of the sheet and of `misce explain`; of a ranged order those of each end. */
function stepWorking(runs: readonly Run[], index: number): string[] {
  return runs.flatMap((run) => {
    const step = run.steps[index];
    const worked = step && !step.skipped ? movingWork(run, step) : [];
    if (worked.length === 0) return [];
    const at = plain(pointWords(run));
    const head = runs.length > 1 && at !== "" ? `At ${at}: ` : "";
    return [head + worked.map((l) => plain(l.text)).join("; ")];
  });
}

function ofUnit(token: Token): string {
  const { unit } = findUnit(token.text);
  return unit ? `**${plain(unit.spelling)}**: ${unit.dimension.name} (UCUM code ${plain(unit.ucum)})` : "";
}
