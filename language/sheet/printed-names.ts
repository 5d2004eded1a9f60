/** Names as a sheet or a label prints them: the full name that the library states, never the word by which recipes call it. */
import type { Run } from "../bench/run.ts";
import type { Lookup } from "../model/lookup.ts";

/** Of a drug that the run knows. */
export function drugIn(run: Run, drug: string): string {
  return run.setup.drugs.get(drug)?.facts.one("name")?.slots.text.text ?? spaced(drug);
}

export function drugName(name: string, lookup: Lookup): string {
  return lookup.find("drug", name)?.facts.one("name")?.slots.text.text ?? spaced(name);
}

export function fluidName(name: string, lookup: Lookup): string {
  return lookup.find("fluid", name)?.facts.one("name")?.slots.text.text ?? spaced(name);
}

/** A name and the figure that follows it: a figure within the name (`glucose 50 %`) must not run into the other. */
export function withFigure(name: string, figure: string): string {
  return figure === "" ? name : `${name}${/\d/.test(name) ? ":" : ""} ${figure}`;
}

/** Salts, routes, forms and places have no declaration, and so no other name: `room-temperature` → `room temperature`. */
export function spaced(name: string): string {
  return name.replaceAll("-", " ");
}
