import type { Declaration } from "../../model/declaration.ts";
import type { MeasureSlot } from "../../model/slots.ts";
import type { Quantity } from "../../quantities/quantity.ts";
import { findUnit } from "../../quantities/unit.ts";
import { declarationCheck } from "../check.ts";
import { standardAnd } from "../example.ts";
import { isWithin, type WrittenBounds } from "../written-bounds.ts";

const straw = (pore: string) => `device narrow-straw {\n  kind  filter-straw\n  pore  ${pore}\n}\n`;
const bounds: WrittenBounds = ["0.01 micrometre", "250 micrometre"];
const micrometre = findUnit("micrometre").unit!;

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
    text: `${at.written} is no pore of a filter (${bounds.join(" to ")}). Look at the figure and its unit, and write it in micrometre.`,
  }),
});

/** 0.2 mm are a blood set's, and nobody writes that in millimetres: 0.2 micrometre was meant. */
function isUnlikely(quantity: Quantity): boolean {
  const fits = isWithin(quantity, bounds);
  return fits === false || (fits === true && quantity.unit.factor.isAbove(micrometre.factor));
}

function poresOf(declaration: Declaration): (MeasureSlot | undefined)[] {
  if (declaration.kind === "device") return [declaration.facts.one("pore")?.slots.pore];
  if (declaration.kind === "recipe") return [declaration.order?.one("in-line-filter")?.slots.pore];
  if (declaration.kind !== "drug") return [];
  const { facts } = declaration;
  return [...facts.all("filter"), ...facts.all("in-line-filter")].flatMap(({ slots }) => [slots.pore, slots.floor]);
}
