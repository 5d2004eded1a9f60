import { happened } from "../../bench/run.ts";
import type { Part } from "../../bench/things.ts";
import type { Drug } from "../../model/declaration.ts";
import type { MeasureSlot } from "../../model/slots.ts";
import { inBase, type Quantity } from "../../quantities/quantity.ts";
import { recipeCheck } from "../check.ts";
import { example } from "../example.ts";
import { isNotKnown } from "../unread-facts.ts";
import { isSterilising, natureInWords, particlesOf } from "./natures.ts";

const dose = "  dose           from 500 mg up to 10 g for any route\n";

export const filterForbidden = recipeCheck({
  name: "filter-forbidden",
  family: "stability",
  severity: "error",
  title: "A drug passes a filter that holds it back or breaks it up",
  why: "The filter keeps the drug and the patient gets the fluid.",
  source:
    "Amphotericin B lipid complex product information, admixture directions (as republished, undated): no in-line filter",
  rows: ["technique-rules no-filter-drugs"],
  bad: example([dose, `${dose}  filter         never below 10 micrometre\n`]),
  good: example([dose, `${dose}  filter         never below 1 micrometre\n`]),
  happening: "passed-filter",
  *find({ runs }) {
    for (const run of runs) {
      const seen = new Set<string>();
      for (const { spot, step, data } of happened(run, "passed-filter")) {
        const drug = run.setup.drugs.get(data.drug);
        const why = drug ? forbidden(drug, data.filter) : undefined;
        const key = `${data.drug} ${data.filter.name} ${step.number}`;
        if (!drug || !why || seen.has(key)) continue;
        seen.add(key);
        yield { at: spot, step, drug, filter: data.filter, why };
      }
    }
  },
  say: ({ step, drug, filter, why }) => ({
    text: `Step ${step.number} takes ${drug.name.name} through ${filter.name}${poreText(filter)}; ${why.text}. Draw it without this filter${why.isUnsaid ? orSay(drug) : ""}.`,
  }),
});

function forbidden(drug: Drug, filter: Part): NotThrough | undefined {
  if (!drug.facts.one("filter") && isNotKnown(drug.facts, "filter")) return undefined;
  // What is too fine on the line is too fine on the syringe; that the line has none says nothing of the preparation.
  const onLine = drug.facts.all("in-line-filter").filter(({ slots }) => slots.never && slots.floor);
  const pore = filter.device.facts.one("pore")?.slots.pore.quantity;
  return whyNotThrough(drug, pore, [...drug.facts.all("filter"), ...onLine]);
}

interface FilterRow {
  slots: { never?: unknown; floor?: MeasureSlot };
}

export interface NotThrough {
  text: string;
  /** No row speaks of filters: it is its nature that forbids them. */
  isUnsaid: boolean;
}

/** What the monograph would say where the drug passes a filter that is coarse enough. */
function orSay({ name }: Drug): string {
  return `; where its source lets it pass one that is coarse enough, say so in drug ${name.name}, such as \`filter never below 1.2 micrometre\``;
}

/** Why the drug must not pass a filter of this pore, by the rows that speak of it, or by its nature where none does. */
export function whyNotThrough(
  drug: Drug,
  pore: Quantity | undefined,
  rows: readonly FilterRow[],
): NotThrough | undefined {
  for (const { slots } of rows) {
    if (!slots.never) continue;
    const { floor } = slots;
    if (!floor) return { text: "it must never be filtered", isUnsaid: false };
    // A pore that cannot be read is told at its line.
    if (!floor.quantity) continue;
    const fine = !pore || inBase(pore).isBelow(inBase(floor.quantity));
    if (!fine) continue;
    const unknown = pore ? "" : ", and the filter does not say its pore";
    return { text: `it must not pass a filter finer than ${floor.written}${unknown}`, isUnsaid: false };
  }
  const particles = particlesOf(drug);
  if (!particles) return undefined;
  const words = natureInWords(particles.nature);
  const it = particles.isByName ? `by its name it is ${words}` : `it is ${words}`;
  if (rows.length === 0) return { text: `${it}, and no fact allows a filter`, isUnsaid: true };
  const isAllowed = rows.some(({ slots }) => slots.never);
  return isSterilising(pore) && !isAllowed
    ? {
        text: `${it}, whose ${particles.nature === "emulsion" ? "droplets" : "particles"} so fine a filter holds back`,
        isUnsaid: false,
      }
    : undefined;
}

function poreText(filter: Part): string {
  const pore = filter.device.facts.one("pore")?.slots.pore.written;
  return pore ? ` (${pore})` : "";
}
