/**
 * A name is only a name: nothing is computed from it. But it is what is read aloud at the shelf, so a figure in it has to be one that
 * the declaration states. Figures with a unit are held against the facts of the same dimension; a bare number (`glucose-5`,
 * `saline-bag-100`) against every figure that it may stand for, and one digit of a product's name only counts products.
 */
import type { Declaration, Recipe } from "../../model/declaration.ts";
import type { Lookup } from "../../model/lookup.ts";
import type { Policy } from "../../model/policy.ts";
import { isShownAsError } from "../../model/shown-as-error.ts";
import { Exact } from "../../quantities/exact.ts";
import { inBase, type Quantity } from "../../quantities/quantity.ts";
import { findUnit } from "../../quantities/unit.ts";
import { type Found, libraryCheck } from "../check.ts";
import { example } from "../example.ts";
import { measuresOf } from "../stated-measures.ts";
import { isOrderedNotKnown } from "../unread-facts.ts";
import { figuresIn as textFigures } from "../written/figures-in-text.ts";
import { substanceContradicted } from "../written/substances-named.ts";

interface Figure {
  written: string;
  number: Exact;
  /** Undefined for a bare number. */
  quantity: Quantity | undefined;
}

interface Contradiction extends Found {
  name: string;
  written: string;
  stated: string[];
}

export const nameContradictsFacts = libraryCheck<Contradiction>({
  name: "name-contradicts-facts",
  family: "structure",
  severity: "warning",
  title: "A figure in a name that the facts do not bear out",
  why: "Recipes and products are picked by their names; a figure that was true before the last change is believed all the same.",
  source: "common practice",
  bad: example(
    ["dose            4 g per bag", "dose            2 g per bag"],
    ["Magnesium sulfate 4 g in", "Magnesium sulfate 2 g in"],
    ["draw 4 g from mag into syringe  = 8 mL", "draw 2 g from mag into syringe  = 4 mL"],
    ["concentration  37.04 mg/mL", "concentration  19.23 mg/mL"],
  ),
  good: example(),
  *find({ declaration, lookup, policy }) {
    if (declaration.kind === "recipe") {
      if (isOrderedNotKnown(declaration)) return;
      const contradicted = substanceContradicted(declaration.name.name, declaration, lookup);
      if (contradicted) {
        const { said, ordered } = contradicted;
        yield { at: declaration.name, name: declaration.name.name, written: said, stated: [ordered] };
      }
    }
    const figures = figuresIn(declaration.name.name);
    if (figures.length === 0) return;
    for (const figure of figures) {
      if (declaration.kind === "recipe" && isInTitle(figure, declaration, policy)) continue;
      const stated = contradicting(figure, declaration, lookup);
      if (stated.length > 0) {
        yield {
          at: declaration.name,
          name: declaration.name.name,
          written: figure.written,
          stated: stated.slice(0, 3),
        };
      }
    }
  },
  say: ({ name, written, stated }) => ({
    text: `The name \`${name}\` says ${written}, the facts say ${stated.join(" and ")}. Correct what is wrong, or rename it wherever it stands.`,
  }),
});

/** The title says the same and is laid against the order with more care; what does not fit is told there. */
function isInTitle({ quantity }: Figure, recipe: Recipe, policy: Policy): boolean {
  const title = recipe.facts.one("title")?.slots.text.text;
  if (!quantity || title === undefined || !isShownAsError("title-contradicts-order", recipe, policy)) return false;
  return textFigures(title).some(
    ({ quantity: other }) => other.unit.dimension === quantity.unit.dimension && inBase(other).equals(inBase(quantity)),
  );
}

/** What is stated in place of the figure; none where it is stated, or where nothing of its kind is. */
function contradicting(figure: Figure, declaration: Declaration, lookup: Lookup): string[] {
  const { quantity } = figure;
  switch (declaration.kind) {
    case "recipe": {
      // What a rounded dose comes to depends on the patient; nothing here states it.
      if (!quantity || declaration.order?.one("round")) return [];
      const order =
        declaration.order
          ?.every()
          .filter((f) => !aboutPatient.has(f.word))
          .flatMap(measuresOf) ?? [];
      const prepared = declaration.preparations.flatMap((p) => p.facts.every().flatMap(measuresOf));
      const alike = (m: { quantity: Quantity | undefined }) => m.quantity?.unit.dimension === quantity.unit.dimension;
      const ordered = order.filter(alike);
      const bands = declaration.order?.one("dose")?.slots.bands?.name ?? "";
      const banded =
        lookup
          .find("bands", bands)
          ?.facts.all("from")
          .map((f) => f.slots.given) ?? [];
      // The mass of an ion says nothing of the mass of its salt, by which the name may count.
      const isOfIon = (declaration.order?.every() ?? []).some(
        ({ slots }) => (slots as { ion?: unknown }).ion !== undefined && quantity.unit.dimension.key === "mass",
      );
      if (isOfIon) return [];
      const isStated = [...ordered, ...[...prepared, ...banded].filter(alike)].some((m) =>
        inBase(m.quantity!).equals(inBase(quantity)),
      );
      return isStated ? [] : distinct(ordered.map((m) => m.written));
    }
    case "fluid": {
      if (quantity) return [];
      const percents = percentsIn(declaration.facts.one("name")?.slots.text.text ?? "");
      return percents.some((p) => p.number.equals(figure.number)) ? [] : distinct(percents.map((p) => p.written));
    }
    case "stock":
      return notInStock(figure, declaration, lookup);
    case "device": {
      const capacity = declaration.facts.one("capacity")?.slots.capacity;
      if (!quantity || capacity?.quantity?.unit.dimension !== quantity.unit.dimension) return [];
      return inBase(capacity.quantity).equals(inBase(quantity)) ? [] : [capacity.written];
    }
    default:
      return [];
  }
}

/** A body weight is no dose, although both are masses. */
const aboutPatient: ReadonlySet<string> = new Set(["weight", "age", "body-surface", "lumen", "clearance"]);

const lessThanTen = Exact.of(10);

/** A product's number may be its fill, content, strength or the whole of it, in any power of 1,000, or come from what is in it. */
function notInStock(figure: Figure, stock: Extract<Declaration, { kind: "stock" }>, lookup: Lookup): string[] {
  const { facts } = stock;
  const fill = facts.one("fill")?.slots.fill;
  const strength = facts.one("strength")?.slots.strength;
  const shown = [
    facts.one("content")?.slots.content,
    strength,
    fill,
    facts.one("capacity")?.slots.capacity,
    ...facts.all("contains").map((f) => f.slots.amount),
  ].flatMap((m) => m ?? []);
  // An empty bag is called by the volume it is meant for and holds more.
  if (shown.every((m) => m === facts.one("capacity")?.slots.capacity) || shown.some((m) => m.quantity === undefined))
    return [];
  if (!figure.quantity && figure.number.isWhole() && figure.number.isBelow(lessThanTen)) return [];
  const numbers = shown.flatMap((m) => [m.quantity!.value, inBase(m.quantity!)]);
  if (fill?.quantity) {
    const volume = inBase(fill.quantity);
    for (const m of shown)
      numbers.push(volume.times(inBase(m.quantity!)), fill.quantity.value.times(m.quantity!.value));
  }
  const held = facts.one("drug")?.slots.drug.name ?? facts.one("fluid")?.slots.fluid.name ?? "";
  numbers.push(...figuresIn(held).map((f) => f.number));
  const about = lookup.find("drug", held)?.facts.one("name") ?? lookup.find("fluid", held)?.facts.one("name");
  numbers.push(...percentsIn(about?.slots.text.text ?? "").map((p) => p.number));
  const wanted = figure.quantity ? [figure.number, inBase(figure.quantity)] : [figure.number];
  return wanted.some((w) => numbers.some((n) => samePowerOfThousand(w, n)))
    ? []
    : distinct(shown.map((m) => m.written));
}

/** 1000 stands for 1 g, 0.5 for 500 mg. Percents count in a hundred. */
function samePowerOfThousand(a: Exact, b: Exact): boolean {
  return scales.some((scale) => a.times(scale).equals(b));
}
const scales = ["1", "1000", "0.001", "1000000", "0.000001", "10", "0.1", "100", "0.01"].map((s) => Exact.of(s));

const unitsInNames = ["mcg", "mg", "g", "ng", "mL", "L", "mmol", "mEq", "units"];

/** `magnesium-4g`, `potassium-40meq`, `insulin-100-units`, `glucose-5`. */
function figuresIn(name: string): Figure[] {
  const found: Figure[] = [];
  const parts = name.split("-");
  for (const [i, part] of parts.entries()) {
    const [, digits, letters] = /^(0\.\d+|[1-9]\d*(?:\.\d+)?)([A-Za-z]*)$/.exec(part) ?? [];
    if (digits === undefined) continue;
    const next = letters === "" ? parts[i + 1] : letters;
    const spelling = unitsInNames.find((u) => u.toLowerCase() === next?.toLowerCase());
    const unit = spelling && findUnit(spelling).unit;
    if (letters !== "" && !unit) continue;
    const number = Exact.of(digits);
    const quantity = unit ? { value: number, unit } : undefined;
    found.push({ written: spelling ? `${digits} ${spelling}` : digits, number, quantity });
  }
  return found;
}

function percentsIn(text: string): { written: string; number: Exact }[] {
  return [...text.matchAll(/(?<![\d.,])(\d+(?:\.\d+)?) ?%/g)].map(([written, n]) => ({
    written,
    number: Exact.of(n!),
  }));
}

function distinct(texts: readonly string[]): string[] {
  return [...new Set(texts)];
}
