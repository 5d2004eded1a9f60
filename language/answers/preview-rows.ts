/** The rows of the preview: what stands in the recipe in the author's own words, and beside it what the bench makes of it. */
import type { Run } from "../bench/run.ts";
import type { Group } from "../bench/setup.ts";
import type { StepRun } from "../bench/step-run.ts";
import { ml } from "../checks/showing.ts";
import { type CalendarDate, compareDates, isExpired } from "../model/dates.ts";
import type { Material, Recipe, Step } from "../model/declaration.ts";
import type { Fact } from "../model/facts.ts";
import type { Lookup } from "../model/lookup.ts";
import type { Spot } from "../model/slots.ts";
import { showQuantity } from "../quantities/quantity.ts";
import { figureRows } from "../sheet/figures.ts";
import { countSaid } from "../sheet/materials.ts";
import { productOf } from "../sheet/product.ts";
import type { FigureRow } from "../sheet/sheet.ts";
import { contentsOf } from "../working/contents.ts";
import { statedStrength } from "../working/stated-strength.ts";
import { spread } from "./figures.ts";
import type { PreviewRow } from "./preview.ts";

function row(label: string, text: string, spot: Spot | undefined): PreviewRow {
  return { label, text, figure: "", working: [], more: [], notes: [], spot };
}

function words(text: string): string {
  return text.replace(/\s+/g, " ").trim();
}

function factItems(facts: readonly Fact[], text: string): PreviewRow[] {
  return [...facts]
    .sort((a, b) => a.start - b.start)
    .map((f) =>
      row(f.word.replaceAll("-", " "), words(text.slice(f.wordSpot.end, f.end)), { start: f.start, end: f.end }),
    );
}

export function orderItems(recipe: Recipe): PreviewRow[] {
  return factItems(recipe.order?.every() ?? [], recipe.chunk.text);
}

export function preparationItems(recipe: Recipe): PreviewRow[] {
  return recipe.preparations.flatMap((p) => factItems(p.facts.every(), recipe.chunk.text));
}

export function materialItems(recipe: Recipe, runs: readonly Run[], lookup: Lookup, asOf: CalendarDate): PreviewRow[] {
  return recipe.materials.map((material) => {
    const groups = runs.flatMap((run) => groupOf(run, material) ?? []);
    const [first] = groups;
    const last = groups.at(-1);
    const condition = material.when ? ` when ${words(textOf(recipe, material.when))}` : "";
    const made = row(
      material.name.name,
      (first ? productOf(first, lookup).text : material.item.name) + condition,
      material,
    );
    if (first && last && (first.item?.kind === "stock" || last.things.length > 1)) {
      const [least, most] = [first, last].map((g) => g.things.length) as [number, number];
      made.figure = least === most ? countSaid(last, most).text : `${least} to ${countSaid(last, most).text}`;
    }
    if (first?.item?.kind === "stock") made.more = shelf(first.item.name.name, lookup, asOf);
    return made;
  });
}

/** Of several lines with one name and different conditions, the run has laid out the one that holds. */
function groupOf(run: Run, material: Material): Group | undefined {
  const group = run.groups.get(material.name.name);
  return group?.material === material ? group : undefined;
}

function shelf(stock: string, lookup: Lookup, asOf: CalendarDate): string[] {
  const usable = lookup
    .lots(stock)
    .flatMap(({ lot, expires }) => (expires && !isExpired(expires, asOf) ? [{ lot, expires }] : []));
  if (usable.length === 0) return ["no lot in date on the shelf"];
  return usable
    .sort((a, b) => compareDates(a.expires.lastDay, b.expires.lastDay))
    .map(({ lot, expires }) => `lot ${lot}, expires ${expires.text}`);
}

export function figureItems(recipe: Recipe, runs: readonly Run[]): PreviewRow[] {
  const all = runs.map((run) => ({ at: pointText(run), rows: figureRows(run, 1) }));
  const labels = new Set(all.flatMap(({ rows }) => rows.map((r) => r.label.text)));
  const places = placesOf(recipe, runs);
  return [...labels].map((label) => {
    const found = all.flatMap(({ at, rows }) =>
      rows.filter((r) => r.label.text === label).map((r) => ({ at, row: r })),
    );
    const first = found[0]!.row;
    const last = found.at(-1)!.row;
    const made = row(label, "", placeOf(first, places, recipe));
    made.figure = spread(first.value.text, last.value.text);
    const alike = linesOf(first).join("\n") === linesOf(last).join("\n");
    made.working =
      alike && found.length === all.length
        ? linesOf(first)
        : found.flatMap(({ at, row: r }) => [`at ${at}:`, ...linesOf(r)]);
    return made;
  });
}

function linesOf(figure: FigureRow): string[] {
  return figure.working.map((w) => w.text);
}

/** `weight 40 kg`; empty for an order without inputs. */
function pointText(run: Run): string {
  return [...run.point].map(([input, value]) => `${input} ${showQuantity(value)}`).join(", ");
}

/** The figures' own names (as the sheet's rows carry them) and where each follows from. */
function placesOf(recipe: Recipe, runs: readonly Run[]): Map<string, Spot> {
  const places = new Map<string, Spot>();
  for (const run of runs) {
    for (const dose of run.doses) places.set(`dose ${dose.drug}`, { start: dose.start, end: dose.end });
    for (const group of run.groups.values()) places.set(`containers ${group.name}`, group.material);
    for (const vessel of run.finals) {
      const preparation = recipe.preparations.find((p) => p.name.name === vessel.name);
      if (!preparation) continue;
      const ends = `${vessel.name} ${vessel.index}`;
      places.set(`volume ${ends}`, preparation);
      for (const drug of vessel.liquid.drugs) {
        for (const what of ["amount", "concentration"]) places.set(`${what} ${drug} ${ends}`, preparation);
      }
    }
  }
  return places;
}

function placeOf({ label, value }: FigureRow, places: ReadonlyMap<string, Spot>, recipe: Recipe): Spot | undefined {
  const { from } = label;
  if (from.kind === "step") return recipe.steps.find((s) => s.number === from.number);
  if (value.from.kind === "bench") return places.get(value.from.figure);
  return value.from.kind === "count" ? places.get(value.from.what) : undefined;
}

/** @param stopped some figure is not known: then no figure and no content is shown beside a step */
export function stepItems(recipe: Recipe, runs: readonly Run[], stopped: boolean): PreviewRow[] {
  return recipe.steps.map((step) => {
    const done = runs.flatMap((run) => {
      const found = run.steps.find((s) => s.step === step);
      return found && !found.skipped ? [{ run, step: found }] : [];
    });
    const sentence = (stopped ? undefined : sentenceOf(done)) ?? ownWords(recipe, step, done[0]?.step);
    const made = row("", conditionText(recipe, step) + sentence, step);
    const [first] = done;
    const last = done.at(-1);
    if (stopped || !first || !last) return made;
    if (first.step.moved?.isPositive() && last.step.moved)
      made.figure = spread(ml(first.step.moved), ml(last.step.moved));
    made.more = contents(done);
    return made;
  });
}

interface Done {
  run: Run;
  step: StepRun;
}

function conditionText(recipe: Recipe, step: Step): string {
  return step.only.map((c) => `Only when ${words(textOf(recipe, c))}: `).join("");
}

/** The verb's own sentence; undefined where the ends of the range give different ones. */
function sentenceOf(done: readonly Done[]): string | undefined {
  const sentences = done.flatMap(({ run, step }) => {
    const planned = run.plan.steps.find((p) => p.step === step.step);
    return planned ? [planned.verb.sentence(planned.slots as never, step)] : [];
  });
  return sentences.every((s) => s === sentences[0]) ? sentences[0] : undefined;
}

/** As the author wrote it, without the claim, which is no instruction. */
function ownWords(recipe: Recipe, step: Step, done: StepRun | undefined): string {
  const own = words(textOf(recipe, { start: step.start, end: done?.claims[0]?.spot.start ?? step.end }));
  return own.slice(0, 1).toUpperCase() + own.slice(1);
}

/** What stands in the container that liquid reached; a syringe on the way is left aside, its volume is the step's own figure. */
function contents(done: readonly Done[]): string[] {
  const texts = done.map(({ run, step }) => {
    const into = step.movements.at(-1)?.to;
    const liquid = into && step.after.get(into);
    const isOnTheWay = into?.kind === "syringe" && !isNamedFinal(run, into.name);
    if (!into || !liquid?.volume.isPositive() || into.of > 1 || isOnTheWay) return "";
    const drugs = contentsOf(run, { ...into, liquid }).map((c) => `${c.drug} ${statedStrength(c, run, into.name)}`);
    return `${into.name} now holds ${[ml(liquid.volume), ...drugs].join(", ")}`;
  });
  if (texts.every((t) => t === texts[0])) return texts[0] ? [texts[0]] : [];
  return texts.flatMap((text, i) => (text === "" ? [] : [`at ${pointText(done[i]!.run)}: ${text}`]));
}

/** Finished, or an intermediate with a name of its own. */
function isNamedFinal(run: Run, name: string): boolean {
  return (
    run.finalNames.has(name) || run.recipe.intermediates.some((i) => i.facts.one("in")?.slots.container.name === name)
  );
}

function textOf(recipe: Recipe, { start, end }: Spot): string {
  return recipe.chunk.text.slice(start, end);
}
