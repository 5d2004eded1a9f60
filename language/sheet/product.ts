/** What a material is, in the words of its pack: the technician reads this against the label in hand. */
import type { Group } from "../bench/setup.ts";
import type { Device, Drug, Fluid, Stock } from "../model/declaration.ts";
import type { Lookup } from "../model/lookup.ts";
import { containerNames } from "../working/pieces.ts";
import { drugName, fluidName, spaced, withFigure } from "./printed-names.ts";
import { type Said, written } from "./said.ts";

export function productOf(group: Group, lookup: Lookup): Said {
  const { item } = group;
  if (!item) return written(group.material.item.name, `material ${group.name}`);
  const where = `${item.kind} ${item.name.name}`;
  return written(item.kind === "stock" ? stockText(item, lookup) : deviceText(item), where);
}

function stockText(stock: Stock, lookup: Lookup): string {
  return [contentText(stock, lookup), packText(stock), stock.facts.one("made-of")?.slots.material.name]
    .filter(Boolean)
    .join(", ");
}

/** Within a sentence: `sodium chloride 0.9 % w/v (500 mL bag)`. */
function shortText(stock: Stock, lookup: Lookup): string {
  const [content, pack] = [contentText(stock, lookup), packText(stock)];
  return content === "" || pack === "" ? content + pack : `${content} (${pack})`;
}

/** An empty container is told from a smaller one by what it can hold. */
function packText({ facts }: Stock): string {
  const kind = facts.one("container")?.slots.kind.choice ?? "";
  const size = facts.one("fill")?.slots.fill.written ?? facts.one("capacity")?.slots.capacity.written;
  return [size, containerNames[kind]?.[0] ?? kind].filter(Boolean).join(" ");
}

function contentText(stock: Stock, lookup: Lookup): string {
  const { facts } = stock;
  const drug = facts.one("drug")?.slots;
  const content = drug
    ? `${drugName(drug.drug.name, lookup)}${drug.salt ? ` as ${spaced(drug.salt.name)}` : ""}`
    : fluidOf(stock, lookup);
  const strength = facts.one("strength")?.slots;
  const powder = facts.one("content")?.slots;
  const labelled = [strength?.strength.written ?? powder?.content.written, saltOf(strength ?? powder)];
  return withFigure(content, labelled.filter(Boolean).join(" "));
}

/** A kebab-case word, not inside quotes or backticks, where recipe text is quoted. */
const identifier = /("[^"]*"|`[^`]*`)|(?<![\w.-])[a-z]\w*(?:[.-]\w+)*-\w+(?:[.-]\w+)*(?![\w-])/g;

/**
 * Words of findings and of workings as a sheet says them: a drug, a fluid, a product or a reference by its printed name. Names without
 * a hyphen may be common words, and names of materials are how the steps call them: both stay. Marks around words of a recipe are for
 * a screen; on paper they are quotation marks.
 */
export function inPrintedNames(text: string, lookup: Lookup, materials: { has(name: string): boolean }): string {
  return text.replace(identifier, (word, quoted: string | undefined) => {
    if (quoted !== undefined) return quoted.replace(/^`(.*)`$/, "“$1”");
    if (materials.has(word)) return word;
    const stock = lookup.find("stock", word);
    if (stock) return shortText(stock, lookup);
    if (lookup.find("drug", word)) return drugName(word, lookup);
    if (lookup.find("fluid", word)) return fluidName(word, lookup);
    return lookup.find("reference", word)?.facts.one("title")?.slots.text.text ?? word;
  });
}

function saltOf(slots: { salt?: { name: string } } | undefined): string | undefined {
  return slots?.salt ? `as ${spaced(slots.salt.name)}` : undefined;
}

function fluidOf(stock: Stock, lookup: Lookup): string {
  const name = stock.facts.one("fluid")?.slots.fluid.name;
  return name === undefined ? "" : fluidName(name, lookup);
}

function deviceText(device: Device): string {
  const { facts } = device;
  const kind = (facts.one("kind")?.slots.kind.choice ?? "").replaceAll("-", " ");
  const marks = facts.one("graduation")?.slots.interval.written;
  const pore = facts.one("pore")?.slots.pore.written;
  const gauge = facts.one("gauge")?.slots.gauge.written;
  return [
    [facts.one("capacity")?.slots.capacity.written, gauge && `${gauge} gauge`, kind].filter(Boolean).join(" "),
    marks && `marks every ${marks}`,
    pore && `pore ${pore}`,
  ]
    .filter(Boolean)
    .join(", ");
}

/** Warnings that belong to the product, not to a step: printed with the materials. */
export function productCautions(group: Group, lookup: Lookup): Said[] {
  const { item } = group;
  if (item?.kind !== "stock") return [];
  const where = `stock ${item.name.name}`;
  const said: Said[] = [];
  const drugName = item.facts.one("drug")?.slots.drug.name;
  const drug = drugName === undefined ? undefined : lookup.find("drug", drugName);
  if (drug) said.push(...drugCautions(drug, lookup));
  for (const { slots } of item.facts.all("looks-like")) {
    const other = lookup.find("stock", slots.stock.name);
    said.push(written(`Looks like ${other ? stockText(other, lookup) : slots.stock.name}. Read the label.`, where));
  }
  const preservative = item.facts.one("preservative")?.slots.what.name;
  if (preservative && preservative !== "none") said.push(written(`Preserved with ${spaced(preservative)}.`, where));
  const routes = item.facts.all("route").map(({ slots }) => spaced(slots.route.name));
  if (routes.length > 0) said.push(written(`For ${routes.join(" and ")} use.`, where));
  const storage = item.facts.one("storage")?.slots.place.name;
  if (storage && storage !== "room-temperature") said.push(written(`Kept at ${spaced(storage)}.`, where));
  const fluid = item.facts.one("fluid")?.slots.fluid.name;
  for (const owner of [item, drug, fluid === undefined ? undefined : lookup.find("fluid", fluid)]) {
    if (owner) said.push(...notesOf(owner));
  }
  return said;
}

function drugCautions(drug: Drug, lookup: Lookup): Said[] {
  const where = `drug ${drug.name.name}`;
  const said: Said[] = [];
  if (drug.facts.one("high-alert")?.slots.answer.choice === "yes") said.push(written("HIGH-ALERT medicine.", where));
  if (drug.facts.one("hazard")?.slots.answer.choice === "hazardous") said.push(written("HAZARDOUS drug.", where));
  for (const { slots } of drug.facts.all("confused")) {
    said.push(written(`Taken for ${drugName(slots.drug.name, lookup)}. Read the name aloud.`, where));
  }
  return said;
}

function notesOf(owner: Stock | Drug | Fluid): Said[] {
  const notes = owner.facts as { all(word: "note"): readonly { slots: { text: { text: string } } }[] };
  return notes.all("note").map(({ slots }) => written(slots.text.text, `${owner.kind} ${owner.name.name}`));
}
