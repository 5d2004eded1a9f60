/** Drugs and fluids as Substance, products of the shelf as Medication: strength and fill by the label, lots where they were chosen. */
import type { Run } from "../bench/run.ts";
import type { Group } from "../bench/setup.ts";
import { dateText } from "../model/dates.ts";
import type { Stock } from "../model/declaration.ts";
import type { Lookup, LotOnShelf } from "../model/lookup.ts";
import type { ChosenLots } from "../sheet/materials.ts";
import { productOf } from "../sheet/product.ts";
import { containerNames } from "../working/pieces.ts";
import type { Identifier, Ingredient, Medication, Ratio, Reference, Substance } from "./fhir-shapes.ts";
import { type Losses, narrative, pieceOf, plainText, quantityOf, strengthRatio, urn } from "./fhir-values.ts";

export interface Placed<T> {
  fullUrl: string;
  resource: T;
}

/** Who gives the names: the site, or nobody where a file stands alone. */
export interface Naming {
  site: string | undefined;
}

export function identifier({ site }: Naming, what: string, value: string): Identifier {
  const assigner = site === undefined ? {} : { assigner: { display: plainText(site) } };
  return { type: { text: what }, value: plainText(value), ...assigner };
}

/** A drug or a fluid that something is made of. Drugs are told by their own name; a salt is a substance of its own. */
export function substanceOf(name: string, salt: string | undefined, lookup: Lookup, naming: Naming): Placed<Substance> {
  const drug = lookup.find("drug", name);
  const fluid = drug ? undefined : lookup.find("fluid", name);
  const kind = drug ? "drug" : fluid ? "fluid" : "substance";
  const own = drug?.facts.one("name")?.slots.text.text ?? fluid?.facts.one("name")?.slots.text.text ?? name;
  const text = plainText(salt === undefined || salt === own ? own : `${own}, as ${salt}`);
  const formula = salt === undefined ? drug?.facts.one("formula")?.slots.text.text : undefined;
  return {
    fullUrl: urn(naming.site ?? "", kind, name, salt ?? ""),
    resource: {
      resourceType: "Substance",
      text: narrative([text]),
      identifier: [identifier(naming, kind, salt === undefined ? name : `${name} as ${salt}`)],
      code: { text },
      ...(formula === undefined ? {} : { description: `Formula ${plainText(formula)}` }),
    },
  };
}

export function referenceTo({ fullUrl, resource }: Placed<Substance | Medication>): Reference {
  return { reference: fullUrl, display: resource.code.text };
}

interface Around {
  run: Run;
  lookup: Lookup;
  naming: Naming;
  losses: Losses;
  substances: Map<string, Placed<Substance>>;
}

/** One Medication a product, or one a lot where lots were chosen; batch is at most one in R4. */
export function stockMedications(chosen: ChosenLots, around: Around): Placed<Medication>[] {
  const all = new Map<string, Placed<Medication>>();
  for (const group of around.run.groups.values()) {
    if (group.item?.kind !== "stock" || group.things.length === 0 || isEmpty(group.item)) continue;
    const lots: readonly (LotOnShelf | undefined)[] = chosen.get(group.name) ?? [undefined];
    for (const lot of lots) {
      const placed = stockMedication(group, group.item, lot, around);
      all.set(placed.fullUrl, placed);
    }
  }
  return [...all.values()];
}

/** A container that comes with nothing in it is no medication. */
export function isEmpty({ facts }: Stock): boolean {
  return !facts.one("drug") && !facts.one("fluid") && facts.all("contains").length === 0;
}

function stockMedication(group: Group, stock: Stock, lot: LotOnShelf | undefined, around: Around): Placed<Medication> {
  const { lookup, naming, losses } = around;
  const name = stock.name.name;
  const code = plainText(productOf(group, lookup).text);
  const fill = stock.facts.one("fill")?.slots.fill.quantity;
  const kind = containerWord(stock);
  const gtin = stock.facts.one("gtin")?.slots.code.text;
  const ingredient = labelled(stock, around);
  const batch = lot?.expires
    ? { batch: { lotNumber: plainText(lot.lot), expirationDate: dateText(lot.expires.lastDay) } }
    : {};
  return {
    fullUrl: urn(naming.site ?? "", "stock", name, lot?.lot ?? ""),
    resource: {
      resourceType: "Medication",
      text: narrative([code, ...(lot ? [`Lot ${lot.lot}, expires ${lot.expires?.text ?? "not known"}.`] : [])]),
      identifier: [
        identifier(naming, "stock", name),
        ...(gtin === undefined ? [] : [{ type: { text: "GTIN" }, value: plainText(gtin) }]),
      ],
      code: { text: code },
      ...(fill
        ? { amount: { numerator: quantityOf(fill, `fill of ${name}`, losses), denominator: pieceOf(kind) } }
        : {}),
      ...(ingredient.length > 0 ? { ingredient } : {}),
      ...batch,
    },
  };
}

function containerWord(stock: Stock): string {
  const kind = stock.facts.one("container")?.slots.kind.choice ?? "container";
  return containerNames[kind]?.[0] ?? kind;
}

/** What the label says is in it. */
function labelled(stock: Stock, around: Around): Ingredient[] {
  const { facts } = stock;
  const name = stock.name.name;
  const drug = facts.one("drug")?.slots;
  const strength = facts.one("strength")?.slots;
  const content = facts.one("content")?.slots;
  const salt = strength?.salt?.name ?? content?.salt?.name ?? drug?.salt?.name;
  const fluid = facts.one("fluid")?.slots.fluid.name;
  const rows: Ingredient[] = [];
  if (drug) {
    const ratio = strengthOfLabel(stock, around);
    if (!ratio) around.losses.asText.add(`strength of ${name}, which stands in its text only`);
    rows.push({ ...item(drug.drug.name, salt, around), isActive: true, ...(ratio ? { strength: ratio } : {}) });
  }
  if (fluid !== undefined) rows.push({ ...item(fluid, undefined, around), isActive: false });
  if (facts.all("contains").length > 0)
    around.losses.asText.add(`what ${name} contains besides (ions and other substances)`);
  return rows;
}

function strengthOfLabel(stock: Stock, { losses }: Around): Ratio | undefined {
  const what = `strength of ${stock.name.name}`;
  const strength = stock.facts.one("strength")?.slots.strength.quantity;
  if (strength) return strengthRatio(strength, what, losses);
  const content = stock.facts.one("content")?.slots.content.quantity;
  return content
    ? { numerator: quantityOf(content, what, losses), denominator: pieceOf(containerWord(stock)) }
    : undefined;
}

/** The substance of an ingredient, put among those that go out once. */
export function item(
  name: string,
  salt: string | undefined,
  around: Omit<Around, "losses">,
): { itemReference: Reference } {
  const placed = substanceOf(name, salt, around.lookup, around.naming);
  around.substances.set(placed.fullUrl, placed);
  return { itemReference: referenceTo(placed) };
}

export type { Around };
