/**
 * Figures shown beside the text: derived volumes, containers needed, contents after each step, the finished strength and the
 * limit it is held against. While a step is broken those of the last good state are shown, moved by the edit.
 */
import { useLimits } from "../bench/beyond-use.ts";
import { planOf } from "../bench/plan.ts";
import type { Run } from "../bench/run.ts";
import type { Library } from "../library.ts";
import type { Recipe } from "../model/declaration.ts";
import { worstCaseWorkings } from "../working/limits.ts";
import { rateWorkings } from "../working/rates.ts";
import type { Working } from "../working/working.ts";
import { afterText, atEnds, countText, finalText, movedText, runsAcross, runsOf } from "./figures.ts";
import { editBetween, placeNow } from "./shifted.ts";

export interface Hint {
  /** Offset in the file. */
  at: number;
  text: string;
  /** Read out when pointed at. */
  about: string;
  /** Text that states the figure, put at `at`, where the author may write it. */
  states: string | undefined;
}

/** Offsets in the chunk of the recipe; undefined where the recipe cannot be followed just now. */
export function hintsOf(library: Library, recipe: Recipe): Hint[] | undefined {
  if (planOf(recipe).broken) return undefined;
  const runs = runsOf(library, recipe);
  if (runs.some((run) => run.unknown)) return undefined;
  return [
    ...materialHints(recipe, runs),
    ...stepHints(runs, runsAcross(library, recipe)),
    ...finalHints(library, recipe, runs),
    ...useWithinHints(library, recipe, runs),
    ...worstHints(library, runs),
    ...rateHints(recipe, runs),
  ];
}

/** What binds how long it may be kept, beside what the recipe states. */
function useWithinHints(library: Library, recipe: Recipe, runs: readonly Run[]): Hint[] {
  const around = library.surroundings();
  const told = "The longest that it may be kept there by what is known, and what sets that.";
  return recipe.preparations.flatMap((preparation) =>
    preparation.facts.all("use-within").flatMap((fact) => {
      const texts = runs.map((run) => {
        const vessel = run.finals.find((v) => v.name === preparation.name.name);
        const { binding } = vessel ? useLimits(run, vessel, fact.slots.place.name, around) : {};
        return binding && `${binding.written} by ${binding.name}`;
      });
      const text = atEnds(runs, texts);
      return text ? [{ at: fact.end, text: `longest ${text}`, about: told, states: undefined }] : [];
    }),
  );
}

/** How far the ordered dose can miss. */
function worstHints(library: Library, runs: readonly Run[]): Hint[] {
  const around = library.surroundings();
  const worked = runs.map((run) => worstCaseWorkings(run, around));
  return runs[0]!.doses.flatMap((dose) => {
    const about = "The dose if every measurement and every strength is off in its worst way at once.";
    return overRuns(runs, worked, (w) => w.of[0] === dose.drug, dose.end, "at worst", about);
  });
}

function rateHints(recipe: Recipe, runs: readonly Run[]): Hint[] {
  const worked = runs.map((run) => rateWorkings(run));
  return recipe.preparations.flatMap((preparation) =>
    overRuns(runs, worked, (w) => w.kind === "rate", preparation.end, "given at", "How fast it is given."),
  );
}

/** One figure over all runs; none where it is not known in all of them, or where several answer to it. */
function overRuns(
  runs: readonly Run[],
  worked: readonly (readonly Working[])[],
  isWanted: (working: Working) => boolean,
  at: number,
  word: string,
  about: string,
): Hint[] {
  const found = worked.map((workings) => workings.filter(isWanted));
  if (found.length === 0 || found.some((list) => list.length !== 1)) return [];
  const text = atEnds(
    runs,
    found.map(([w]) => w!.text),
  );
  const lines = [...new Set(found.flatMap(([w]) => w!.lines.map((line) => line.text)))];
  return [{ at, text: `${word} ${text}`, about: [about, ...lines].join("\n"), states: undefined }];
}

function materialHints(recipe: Recipe, runs: readonly Run[]): Hint[] {
  return recipe.materials.flatMap((material) => {
    if (material.when) return [];
    const needed = countText(runs, material.name.name);
    if (!needed) return [];
    return [
      { at: material.item.end, text: `${needed} needed`, about: "How many the steps need of it.", states: undefined },
    ];
  });
}

/** @param across runs over which the least and the most are met */
function stepHints(runs: readonly Run[], across: readonly Run[]): Hint[] {
  const hints: Hint[] = [];
  for (const [index, step] of runs[0]!.steps.entries()) {
    if (runs.some((r) => r.steps[index]?.skipped)) continue;
    const at = step.step.end;
    const moved = movedText(across, index);
    if (moved && !step.claims.some((c) => c.kind === "moves") && !statesVolume(step.slots)) {
      hints.push({ at, text: `= ${moved}`, about: "Volume that this step moves, worked out.", states: `  = ${moved}` });
    }
    const into = step.movements.at(-1)?.to;
    if (!into || into.kind === "syringe" || into.of > 1) continue;
    const held = afterText(runs, index, into.name);
    if (held)
      hints.push({ at, text: `${into.name}: ${held}`, about: "What it holds after this step.", states: undefined });
  }
  return hints;
}

/** `draw 8 mL …` says its volume already. */
function statesVolume(slots: unknown): boolean {
  const { amount, volume } = slots as {
    amount?: { quantity?: { unit: { dimension: { key: string } } } };
    volume?: unknown;
  };
  return volume !== undefined || amount?.quantity?.unit.dimension.key === "volume";
}

function finalHints(library: Library, recipe: Recipe, runs: readonly Run[]): Hint[] {
  return recipe.preparations.flatMap((preparation) => {
    const held = finalText(runs, preparation.name.name);
    if (!held) return [];
    const limit = limitText(library, recipe);
    return [
      { at: preparation.end, text: held + (limit ? ` (${limit})` : ""), about: "What is finished.", states: undefined },
    ];
  });
}

/** The concentration limits of the ordered drugs, as their monographs say them. */
function limitText(library: Library, recipe: Recipe): string {
  const names = recipe.order?.all("drug").map((f) => f.slots.drug.name) ?? [];
  const { lookup } = library.surroundings();
  return names
    .flatMap((name) => {
      const drug = lookup.find("drug", name);
      return (drug?.facts.all("concentration") ?? []).map((f) => drug!.chunk.text.slice(f.start, f.end));
    })
    .map((text) =>
      text
        .replace(/\s+/g, " ")
        .replace(/^concentration /, "limit ")
        .replace(/ source .*$/, ""),
    )
    .join("; ");
}

interface Good {
  text: string;
  hints: Hint[];
}

/** Remembers the last good hints of each recipe by file and name. */
export class Hints {
  private readonly good = new Map<string, Good>();

  /** Hints of a file between two offsets, offsets in the file. */
  of(library: Library, file: string, from: number, to: number): Hint[] {
    const found: Hint[] = [];
    for (const chunk of library.chunks(file)) {
      if (chunk.base > to || chunk.base + chunk.text.length < from) continue;
      for (const recipe of chunk.reading.declarations) {
        if (recipe.kind !== "recipe") continue;
        const key = `${file}\n${recipe.name.name}`;
        const fresh = hintsOf(library, recipe);
        if (fresh) this.good.set(key, { text: chunk.text, hints: fresh });
        const known = this.good.get(key);
        const hints = fresh ?? (known ? moved(known, chunk.text) : []);
        for (const hint of hints) found.push({ ...hint, at: chunk.base + hint.at });
      }
    }
    return found.filter((h) => from <= h.at && h.at <= to).sort((a, b) => a.at - b.at);
  }

  forget(file: string): void {
    for (const key of this.good.keys()) if (key.startsWith(`${file}\n`)) this.good.delete(key);
  }
}

/** The hints of an earlier text in a later one; those on rows that the edit touched are left out. */
function moved({ text, hints }: Good, now: string): Hint[] {
  const edit = editBetween(text, now);
  return hints.flatMap((hint) => {
    const at = placeNow(edit, hint.at);
    // A figure of an earlier state is shown, and not offered for writing down.
    return at === undefined ? [] : [{ ...hint, at, states: undefined }];
  });
}
