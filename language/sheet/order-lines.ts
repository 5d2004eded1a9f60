/** The order, the finished preparation and the notes as lines: label on the left, what the recipe or the command says on the right. */

import { type OrderInput, orderInputs } from "../bench/order.ts";
import { holds, rowAt, rowsAt } from "../bench/order-rows.ts";
import type { Run } from "../bench/run.ts";
import type { Fact } from "../model/facts.ts";
import type { Lookup } from "../model/lookup.ts";
import type { MeasureSlot, NameSlot } from "../model/slots.ts";
import { showQuantity } from "../quantities/quantity.ts";
import type { Preparation } from "./beyond-use.ts";
import { drugIn, drugName, fluidName, spaced, withFigure } from "./printed-names.ts";
import { type Said, type SaidLine, written } from "./said.ts";

const labels: Readonly<Record<string, string>> = {
  drug: "Drug",
  additive: "Additive",
  target: "Target",
  dose: "Dose ordered",
  concentration: "Concentration ordered",
  round: "Rounding",
  maximum: "At most",
  minimum: "At least",
  diluent: "Diluent",
  "diluent-volume": "Volume of diluent",
  "final-volume": "Final volume",
  method: "Method",
  makes: "Makes",
  overage: "Overage",
  route: "Route",
  access: "Vein",
  use: "Use",
  population: "For",
  "in-line-filter": "Through an in-line filter of",
  "infuse-over": "Give over",
  "infuse-at": "Give at",
};

const inputLabels: Readonly<Record<OrderInput, string>> = {
  weight: "Body weight",
  age: "Age",
  "body-surface": "Body surface",
  lumen: "Lumen",
  clearance: "Clearance",
};

/** Values of closed lists as a person says them. */
const spoken: Readonly<Record<string, string>> = {
  "add-to-bag": "add to the bag",
  "withdraw-first": "withdraw the added volume first",
  "withdraw-first-with-overfill": "withdraw the added volume and the overfill first",
  "build-from-empty": "build up from an empty container",
  undiluted: "undiluted",
  "part-of-container": "part of the container",
  "part-of-container as bolus": "part of the container, as a bolus",
};

/** Every fact of the order that holds for this patient, in the author's own words and in the usual sequence. */
export function orderLines(run: Run, text: string, lookup: Lookup): SaidLine[] {
  const { recipe, point, doses } = run;
  const where = `recipe ${recipe.name.name}`;
  const lines: SaidLine[] = [];
  for (const input of orderInputs) {
    const value = point.get(input);
    if (value)
      lines.push({
        label: inputLabels[input],
        value: { text: showQuantity(value), from: { kind: "asked", what: input } },
      });
  }
  const facts = recipe.order?.every() ?? [];
  for (const [word, label] of Object.entries(labels)) {
    for (const fact of facts) {
      if (fact.word !== word || (fact.when && holds(fact.when, point, doses) === false)) continue;
      const typed = text.slice(fact.wordSpot.end, endOf(fact, text)).trim().replace(/\s+/g, " ");
      const own = typed.replace(/ per (\S+)$/, (per, name) => (isSet(run, name) ? ` for each of ${name}` : per));
      const said =
        word === "diluent" && isMakeUp(fact, facts)
          ? `${named(word, own, lookup)}, to make up the volume`
          : named(word, own, lookup);
      lines.push({ label, value: written(said, where) });
    }
  }
  return lines;
}

/** Of several diluents the one without a volume makes up what the others leave. */
function isMakeUp(fact: Fact, facts: readonly Fact[]): boolean {
  const hasVolume = ({ slots }: Fact) => (slots as { volume?: unknown }).volume !== undefined;
  return !hasVolume(fact) && facts.some((other) => other.word === "diluent" && hasVolume(other));
}

/** `1 g per bags` is how a recipe says it of four bags; nobody reads it aloud so. */
function isSet(run: Run, name: string): boolean {
  return (run.groups.get(name)?.things.length ?? 0) > 1;
}

/** Without the trailing words (`when`, `source`), which have done their work. */
function endOf(
  fact: { end: number; when?: { start: number } | undefined; source?: { start: number } | undefined },
  text: string,
): number {
  const cut = Math.min(fact.when?.start ?? fact.end, fact.source?.start ?? fact.end);
  if (cut === fact.end) return fact.end;
  return text.slice(0, cut).replace(/\s+(when|source)\s*$/, "").length;
}

/** The author's words with the printed name in the place of the word that the recipe calls it by. */
function named(word: string, own: string, lookup: Lookup): string {
  const [name = "", ...rest] = own.split(" ");
  switch (word) {
    case "drug":
    case "additive":
      return withFigure(drugName(name, lookup), rest.join(" "));
    case "diluent":
      return withFigure(fluidName(name, lookup), rest.join(" "));
    case "final-volume":
      return own.replace(/ line (included|excluded)$/, (_, counts) => `, what the line holds ${counts}`);
    case "route":
      return spaced(own);
    default:
      return spoken[own] ?? own;
  }
}

export function preparationLines(run: Run, preparation: Preparation, isOneOfSeveral: boolean): SaidLine[] {
  const where = `recipe ${run.recipe.name.name}`;
  const { facts } = preparation;
  const lines: SaidLine[] = [];
  const add = (label: string, text: string | undefined) => {
    if (text === undefined) return;
    lines.push({ label: isOneOfSeveral ? `${preparation.name.name}: ${label}` : label, value: written(text, where) });
  };
  add("Form", facts.one("form") && spaced(facts.one("form")!.slots.form.name));
  const strength = (drug: string | undefined, text: string) =>
    drug === undefined ? text : withFigure(drugIn(run, drug), text);
  const counted = ({ concentration, salt, ion }: { concentration: MeasureSlot; salt?: NameSlot; ion?: NameSlot }) =>
    concentration.written + (salt ? ` as ${spaced(salt.name)}` : "") + (ion ? ` of ${ion.name}` : "");
  for (const { slots } of rowsAt(facts.all("concentration"), run))
    add("Concentration stated", strength(slots.drug?.name, counted(slots)));
  for (const { slots } of rowsAt(facts.all("nominal-concentration"), run))
    add("Nominal, rounded as spoken", strength(slots.drug?.name, counted(slots)));
  add("Volume stated", rowAt(facts.all("volume"), run)?.slots.volume.written);
  add("Must look", facts.one("appearance")?.slots.text.text);
  const place = facts.one("store")?.slots.place.name;
  add("Keep at", place === undefined ? undefined : spaced(place));
  add("After first opening", facts.one("after-opening")?.slots.time.written);
  return lines;
}

export function noteLines(run: Run, lookup: Lookup): Said[] {
  const { recipe } = run;
  const own = recipe.facts.all("note").map(({ slots }) => written(slots.text.text, `recipe ${recipe.name.name}`));
  const site = (lookup.site()?.facts.all("note") ?? []).map(({ slots }) => written(slots.text.text, "site"));
  return [...own, ...site];
}
