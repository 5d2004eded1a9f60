/** Changes that an author may want without a finding: offered at a place, edits in the file. Meaning never changes by one. */
import { kindUnits } from "../bench/amounts.ts";
import { handy, ml } from "../checks/showing.ts";
import type { Library } from "../library.ts";
import type { Recipe } from "../model/declaration.ts";
import type { MeasureSlot } from "../model/slots.ts";
import { showQuantity } from "../quantities/quantity.ts";
import { lineStartAt } from "../syntax/lines.ts";
import { runsOf } from "./figures.ts";
import { hintsOf } from "./hints.ts";
import { placeAt } from "./place.ts";

export interface Refactoring {
  title: string;
  kind: "refactor.rewrite" | "refactor.extract";
  edits: { start: number; end: number; text: string }[];
  /** A new file that the text goes to, relative to the library's folder. */
  newFile?: { path: string; text: string };
}

export function refactoringsAt(library: Library, file: string, start: number, end: number): Refactoring[] {
  const place = placeAt(library, file, start);
  if (!place?.declaration) return [];
  const found: Refactoring[] = [];
  const { base } = place.chunk;
  if (place.declaration.kind === "recipe") {
    found.push(...statedFigures(library, place.declaration, base, start, end));
    found.push(...amountForVolume(library, place.declaration, base, start));
  } else if (place.headOf && place.declaration.kind === "stock") {
    const others = library.chunks(file).some((c) => c.reading.declarations.some((d) => d.kind === "recipe"));
    if (others) found.push(ownFile(place.declaration.name.name, place.chunk.text, base));
  }
  return found;
}

function statedFigures(library: Library, recipe: Recipe, base: number, start: number, end: number): Refactoring[] {
  const hints = (hintsOf(library, recipe) ?? []).filter((h) => h.states !== undefined);
  const edit = (h: (typeof hints)[number]) => ({ start: base + h.at, end: base + h.at, text: h.states! });
  const text = recipe.chunk.text;
  const here = hints.filter((h) => {
    const from = lineStartAt(text, h.at);
    return base + from <= end && start <= base + h.at;
  });
  const found: Refactoring[] = here.map((h) => ({
    title: `State the figure ${h.states!.trim()}`,
    kind: "refactor.rewrite",
    edits: [edit(h)],
  }));
  if (hints.length > 1 && here.length > 0) {
    found.push({
      title: `State all ${hints.length} figures of this recipe`,
      kind: "refactor.rewrite",
      edits: hints.map(edit),
    });
  }
  return found;
}

/** `draw 8 mL from mag into syringe` → `draw 4 g from mag into syringe  = 8 mL`, where the amount is exact in figures. */
function amountForVolume(library: Library, recipe: Recipe, base: number, offset: number): Refactoring[] {
  const runs = runsOf(library, recipe);
  const run = runs[0]!;
  if (runs.length > 1 || run.unknown) return [];
  const step = run.steps.find((s) => s.step.start <= offset - base && offset - base <= s.step.end);
  const slot = (step?.slots as { amount?: MeasureSlot } | undefined)?.amount;
  if (step?.verb !== "draw" || slot?.quantity?.unit.dimension.key !== "volume") return [];
  const drugs = new Set(step.movements.flatMap((m) => m.liquid.drugs));
  const [drug] = drugs;
  if (drugs.size !== 1 || drug === undefined || step.claims.length > 0) return [];
  const kind = run.setup.kinds.get(drug) ?? "mass";
  // Of a set each syringe is asked for as much as the first.
  const one = step.movements.filter(({ to }) => to === step.movements[0]?.to);
  const [first, ...rest] = one.flatMap((m) => m.liquid.amounts.get(drug) ?? []);
  if (!first) return [];
  const amount = handy({ value: rest.reduce((sum, a) => sum.plus(a), first), unit: kindUnits[kind] });
  const text = showQuantity(amount);
  if (!amount.value.terminates() || !step.moved) return [];
  return [
    {
      title: `Ask for ${text} in place of ${slot.written}, and state the volume`,
      kind: "refactor.rewrite",
      edits: [
        { start: base + slot.start, end: base + slot.end, text },
        { start: base + step.step.end, end: base + step.step.end, text: `  = ${ml(step.moved)}` },
      ],
    },
  ];
}

function ownFile(name: string, text: string, base: number): Refactoring {
  return {
    title: `Move stock ${name} to the library as stock/${name}.misce`,
    kind: "refactor.extract",
    edits: [{ start: base, end: base + text.length, text: "" }],
    newFile: { path: `stock/${name}.misce`, text: `${text.trimEnd()}\n` },
  };
}
