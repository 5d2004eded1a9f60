import type { Declaration } from "../../model/declaration.ts";
import type { MeasureSlot } from "../../model/slots.ts";
import { inBase, measure, type Quantity } from "../../quantities/quantity.ts";
import { declarationCheck } from "../check.ts";
import { standardAnd } from "../example.ts";

const straw = (pore: string) => `device narrow-straw {\n  kind  filter-straw\n  pore  ${pore}\n}\n`;
const [least, most] = ["0.01 micrometre", "250 micrometre"];
const [narrowest, widest] = [measure(least), measure(most)];

export const poreUnlikely = declarationCheck<{ at: MeasureSlot }>({
  name: "pore-unlikely",
  family: "technique",
  severity: "error",
  title: "A pore that no filter has",
  why: "By a pore a thousand times too wide every filter is fine enough, and none is asked for.",
  source: "common practice; the filters of blood sets, the widest, are of 170 to 200 micrometre (from memory)",
  bad: standardAnd(straw("5 mm")),
  good: standardAnd(straw("5 micrometre")),
  *find({ declaration }) {
    for (const at of poresOf(declaration)) {
      if (at?.quantity && isUnlikely(at.quantity)) yield { at };
    }
  },
  say: ({ at }) => ({
    text: `${at.written} is no pore of a filter (${least} to ${most}). Look at the figure and its unit, and write it in micrometre.`,
  }),
});

/** 0.2 mm are a blood set's, and nobody writes that in millimetres: 0.2 micrometre was meant. */
function isUnlikely(quantity: Quantity): boolean {
  if (quantity.unit.dimension !== widest.unit.dimension) return false;
  const pore = inBase(quantity);
  return (
    pore.isBelow(inBase(narrowest)) || pore.isAbove(inBase(widest)) || quantity.unit.factor.isAbove(widest.unit.factor)
  );
}

function poresOf(declaration: Declaration): (MeasureSlot | undefined)[] {
  if (declaration.kind === "device") return [declaration.facts.one("pore")?.slots.pore];
  if (declaration.kind === "recipe") return [declaration.order?.one("in-line-filter")?.slots.pore];
  if (declaration.kind !== "drug") return [];
  const { facts } = declaration;
  return [...facts.all("filter"), ...facts.all("in-line-filter")].flatMap(({ slots }) => [slots.pore, slots.floor]);
}
