/** What a drug is made of beyond a solution, as its monograph states it or its name says it: droplets and particles that a fine filter holds back. */
import type { Drug } from "../../model/declaration.ts";
import type { Quantity } from "../../quantities/quantity.ts";
import { inBase, measure } from "../../quantities/quantity.ts";

export type Particles = "suspension" | "emulsion" | "lipid-complex";

/** 0.22 micrometre in most papers, 0.2 on most filters: the pore that is called sterilising, and finer ones. */
const sterilising = inBase(measure("0.22 micrometre"));

const named: readonly [RegExp, Particles][] = [
  [/\b(?:liposom\w*|lipid[- ]complex|lipid nanoparticles?)\b/i, "lipid-complex"],
  [/\b(?:emulsions?|lipid(?![- ]soluble))\b/i, "emulsion"],
  [/\bsuspensions?\b/i, "suspension"],
];

/** Undefined where neither says so. What the monograph states stands before what the name says. */
export function particlesOf(drug: Drug): { nature: Particles; isByName: boolean } | undefined {
  const stated = drug.facts.one("nature")?.slots.nature.choice;
  if (stated === "suspension" || stated === "emulsion" || stated === "lipid-complex")
    return { nature: stated, isByName: false };
  if (stated !== undefined && stated !== "solution") return undefined;
  const said = wordOfParticles(drug);
  return said && { nature: said.nature, isByName: true };
}

/** The word of its names that says so: `liposomal`. */
export function wordOfParticles({ name, facts }: Drug): { nature: Particles; word: string } | undefined {
  const texts = [facts.one("name")?.slots.text.text ?? "", name.name.replaceAll("-", " ")];
  for (const [pattern, nature] of named) {
    for (const text of texts) {
      const word = pattern.exec(text)?.[0];
      if (word !== undefined) return { nature, word };
    }
  }
  return undefined;
}

/** A filter that holds back droplets and particles whatever a line allows. */
export function isSterilising(pore: Quantity | undefined): boolean {
  return pore !== undefined && inBase(pore).isAtMost(sterilising);
}

/** `an emulsion`. */
export function natureInWords(nature: Particles): string {
  return `${nature === "emulsion" ? "an" : "a"} ${nature.replace("-", " ")}`;
}
