/**
 * The working of a recipe's figures for whoever asks by name: at one order, or at both ends of a ranged one. Pure data; the command
 * line prints it, and an editor may show it.
 */
import { endsOf } from "../bench/order.ts";
import type { OrderPoint } from "../bench/order-rows.ts";
import { runRecipe } from "../bench/run.ts";
import type { Library } from "../library.ts";
import { dateText } from "../model/dates.ts";
import type { Recipe } from "../model/declaration.ts";
import { nearNames } from "../model/near.ts";
import { type Quantity, showQuantity } from "../quantities/quantity.ts";
import { orderPoint } from "../sheet/order-point.ts";
import { isSheetRefusal, type SheetRefusal } from "../sheet/sheet.ts";
import { theRecipe } from "../sheet/sheet-data.ts";
import { type Against, errorsAgainst } from "../sheet/standing-findings.ts";
import { allWorkings } from "../working/all.ts";
import { fullName, type LineOrigin, namesOf, type Working } from "../working/working.ts";

export interface ExplainRequest {
  recipe: string;
  /** Input of the order → what was typed: `weight` → `60kg`. Empty for both ends of a range. */
  inputs: ReadonlyMap<string, string>;
  /** Name of a figure; undefined for all of them. */
  figure: string | undefined;
}

/** A number as text with its unit; four significant digits where it does not end, and then the exact fraction beside it. */
export interface Figure {
  number: string;
  unit: string;
  exact?: string;
}

export interface ExplainedFigure {
  name: string;
  label: string;
  text: string;
  value: Figure | null;
  lines: { text: string; value: Figure | null; origin: LineOrigin }[];
}

export interface ExplainedOrder {
  /** `weight 60 kg`; empty for an order without inputs. */
  at: string;
  figures: ExplainedFigure[];
  /** Some figure cannot be worked out: those of the finished container are then not told. */
  isIncomplete: boolean;
}

export interface Explained {
  recipe: string;
  title: string;
  asOf: string;
  /** Errors that stand against the recipe: with any of them its figures are not to be relied on. */
  against: Against[];
  orders: ExplainedOrder[];
}

/** @returns the working, or a plain sentence that says why there is none */
export function explainFigures(library: Library, request: ExplainRequest): Explained | SheetRefusal {
  const recipe = theRecipe(library, request.recipe);
  if (isSheetRefusal(recipe)) return recipe;
  const points = pointsFor(recipe, request.inputs);
  if (!Array.isArray(points)) return points;
  const around = library.surroundings();
  const known = new Set<string>();
  const runs = points.map((point) => runRecipe(recipe, around.lookup, around.policy, { point, overfill: "label" }));
  const orders = runs.map((run): ExplainedOrder => {
    const workings = allWorkings(run, around);
    const names = namesOf(workings);
    for (const name of names.values()) known.add(name);
    const asked = workings.filter((w) => isAsked(w, names.get(w)!, request.figure));
    return {
      at: atText(run.point),
      figures: asked.map((w) => explained(w, names.get(w)!)),
      isIncomplete: run.unknown,
    };
  });
  if (request.figure !== undefined && orders.every((o) => o.figures.length === 0)) {
    return {
      refusal: noFigure(
        recipe,
        request.figure,
        [...known],
        orders.some((o) => o.isIncomplete),
      ),
    };
  }
  const title = recipe.facts.one("title")?.slots.text.text ?? recipe.name.name;
  return {
    recipe: recipe.name.name,
    title,
    asOf: dateText(around.asOf),
    against: errorsAgainst(library, recipe, runs),
    orders,
  };
}

/** By its own name, its full name, or its kind for all of that kind: `concentration` of three drugs. */
function isAsked(working: Working, name: string, asked: string | undefined): boolean {
  return asked === undefined || name === asked || fullName(working) === asked || working.kind === asked;
}

function noFigure(recipe: Recipe, figure: string, known: readonly string[], isIncomplete: boolean): string {
  const near = nearNames(figure, known);
  const hint = near.length > 0 ? ` Did you mean ${near.join(" or ")}?` : "";
  const open = isIncomplete ? " Some figures of it cannot be worked out; misce check says why." : "";
  return `${recipe.name.name} has no figure called "${figure}".${hint}${open} misce explain ${recipe.name.name} lists them.`;
}

/** The order asked for; where nothing is said of a ranged one, its lower and its upper end. */
function pointsFor(recipe: Recipe, inputs: ReadonlyMap<string, string>): OrderPoint[] | SheetRefusal {
  const ends = endsOf(recipe);
  if (inputs.size === 0 && ends.length > 1) return ends;
  const point = orderPoint(recipe, inputs);
  return isSheetRefusal(point) ? point : [point];
}

function atText(point: OrderPoint): string {
  return [...point].map(([input, value]) => `${input.replace("-", " ")} ${showQuantity(value)}`).join(", ");
}

function explained({ label, text, value, lines }: Working, name: string): ExplainedFigure {
  return {
    name,
    label,
    text,
    value: figureOf(value),
    lines: lines.map((l) => ({ text: l.text, value: figureOf(l.value), origin: l.origin })),
  };
}

export function figureOf(value: Quantity | undefined): Figure | null {
  if (!value) return null;
  const plain = value.value.plain();
  const figure = { number: plain.toText(), unit: value.unit.spelling };
  return plain.terminates() ? figure : { ...figure, exact: plain.key() };
}
