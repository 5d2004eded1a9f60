/**
 * Where the figures stand that a wrong result rests on, as places beside a finding. Who finds the steps right looks there next: a label
 * with a zero too many shows itself in the dose and in the volumes that are drawn, and nowhere else.
 */
import type { Run } from "../bench/run.ts";
import type { StepRun } from "../bench/step-run.ts";
import type { Place, Stock } from "../model/declaration.ts";
import type { MeasureSlot, NameSlot, Spot } from "../model/slots.ts";

export interface Behind {
  at: Spot | Place;
  text: string;
}

/** What the labels say of the products of a drug, or of any drug, among these stocks. */
export function labelsBehind(stocks: readonly string[], run: Run, drug?: string): Behind[] {
  const held = [...run.groups.values()].flatMap(({ item }) => (item?.kind === "stock" ? [item] : []));
  return [...new Set(held)].flatMap((stock) => {
    const of = stock.facts.one("drug")?.slots.drug.name;
    if (of === undefined || (drug !== undefined && of !== drug) || !stocks.includes(stock.name.name)) return [];
    return labelFigures(stock).map((figure) => ({
      at: { start: figure.start, end: figure.end, chunk: stock.chunk },
      text: `${stock.name.name}: ${figure.written}, by its label`,
    }));
  });
}

function labelFigures({ facts, reconstitute }: Stock): MeasureSlot[] {
  const figures = [
    facts.one("strength")?.slots.strength,
    facts.one("content")?.slots.content,
    facts.one("displacement")?.slots.volume,
    reconstitute?.one("with")?.slots.volume,
    reconstitute?.one("gives")?.slots.strength,
  ];
  return figures.filter((figure) => figure !== undefined);
}

/** Labels of a drug's products among the materials, whether or not any of it arrived. */
export function labelsOf(drug: string, run: Run): Behind[] {
  const all = [...run.groups.values()].flatMap(({ item }) => (item?.kind === "stock" ? [item.name.name] : []));
  return labelsBehind(all, run, drug);
}

/** Where steps say how much of a drug they take up. */
export function drawsBehind(drug: string, run: Run): Behind[] {
  return run.steps.flatMap((step) => {
    const { amount } = step.slots as { amount?: MeasureSlot };
    const isOf = step.movements.some(({ how, liquid }) => how === "draw" && liquid.drugs.includes(drug));
    return amount && isOf ? [{ at: amount, text: `step ${step.number} takes ${amount.written}` }] : [];
  });
}

/** What a step measures by: the order where it asks for the dose or the diluent, the labels where it asks by an amount. */
export function behindStep(step: StepRun, run: Run): Behind[] {
  const slots = step.slots as StepSlots;
  const { drug: named } = slots;
  const asked = slots.figure?.choice;
  const byVolume = (slots.amount ?? slots.volume)?.quantity?.unit.dimension.key === "volume";
  if (byVolume || asked === "all") return [];
  if (asked === "diluent-volume" || asked === "final-volume") return ordered(run, asked);
  const drugs = step.movements.flatMap(({ liquid }) => liquid.drugs);
  const isMeant = (drug: string) => drugs.includes(drug) || run.doses.length === 1 || named?.name === drug;
  const doses = asked === undefined ? [] : run.doses.filter(({ drug }) => isMeant(drug));
  return [
    ...doses.map((dose) => ({ at: dose, text: `the order: ${dose.measure.written}` })),
    ...(doses.length > 0 ? rulesOf(run) : []),
    ...(doses.some(({ byConcentration }) => byConcentration) ? ordered(run, "final-volume") : []),
    ...labelsBehind(stocksIn(step, run), run),
  ];
}

/** What rounds and bounds the dose. */
function rulesOf({ recipe: { order } }: Run): Behind[] {
  const figures = [
    ...(order?.all("round") ?? []).map(({ slots }) => slots.step),
    ...(order?.all("maximum") ?? []).map(({ slots }) => slots.limit),
    ...(order?.all("minimum") ?? []).map(({ slots }) => slots.limit),
  ];
  return figures.map((figure) => ({ at: figure, text: `the order: ${figure.written}` }));
}

interface StepSlots {
  figure?: { choice: string };
  drug?: NameSlot;
  amount?: MeasureSlot;
  volume?: MeasureSlot;
  from?: NameSlot;
  source?: NameSlot;
}

/** Stocks of what it moved; where it moved nothing, of the container that it names. */
function stocksIn({ movements, slots }: StepRun, run: Run): string[] {
  if (movements.length > 0) return [...new Set(movements.flatMap(({ liquid }) => liquid.stocks))];
  const { from, source } = slots as StepSlots;
  const item = run.groups.get((from ?? source)?.name ?? "")?.item;
  return item?.kind === "stock" ? [item.name.name] : [];
}

function ordered({ recipe }: Run, word: "diluent-volume" | "final-volume"): Behind[] {
  return (recipe.order?.all(word) ?? []).map(({ slots: { volume } }) => ({
    at: volume,
    text: `the order: ${volume.written}`,
  }));
}
