/** `misce explain RECIPE FIGURE`: the working of a figure line by line, as the second check on paper takes it. */
import type { Explained, ExplainedFigure, ExplainedOrder } from "../../language/answers/explain.ts";
import { nearNames } from "../../language/model/near.ts";
import { isSheetRefusal } from "../../language/sheet/sheet.ts";
import { safetyNotice } from "../../shared/report.ts";
import { againstLines, tellAgainst } from "./against.ts";
import { requireDay, today } from "./as-of.ts";
import { CannotRun } from "./cannot-run.ts";
import type { Engine } from "./engine-contract.ts";
import { openRecipe, type RecipeFlags } from "./open-recipe.ts";
import { inputsOf, type OrderFlags } from "./order-flags.ts";
import { visible } from "./reports/visible.ts";
import type { Surroundings } from "./surroundings.ts";

export interface FigureFlags extends RecipeFlags, OrderFlags {
  asOf?: string;
  format?: string;
}

/** Every figure at once. */
const all = "all";

/** Without a figure, lists the figures of the recipe. @returns exit status: 0 told, 1 told while errors stand against the recipe or figures are missing */
export async function figureCommand(
  what: string,
  figure: string | undefined,
  flags: FigureFlags,
  engine: Engine,
  surroundings: Surroundings,
): Promise<0 | 1> {
  const adviser = await engine.adviser?.();
  if (!adviser) throw new CannotRun("This engine explains no figures.");
  const isJson = wantsJson(flags.format);
  const day = flags.asOf === undefined ? today(surroundings.now()) : requireDay(flags.asOf);
  const { library, name } = await openRecipe(what, flags, engine, adviser, surroundings, day);
  const asked = figure === all ? undefined : figure;
  const explained = adviser.explain(library, { recipe: name, inputs: inputsOf(flags), figure: asked });
  if (isSheetRefusal(explained)) throw new CannotRun(explained.refusal);
  const isList = figure === undefined;
  surroundings.stdout.write(isJson ? jsonOf(explained) : isList ? listOf(explained) : textOf(explained));
  if (isJson) tellAgainst(explained.recipe, explained.against, surroundings.stderr);
  return explained.against.length > 0 || explained.orders.some((o) => o.isIncomplete) ? 1 : 0;
}

/** @throws CannotRun for a form that is neither */
export function wantsJson(format: string | undefined): boolean {
  if (format === undefined || format === "text") return false;
  if (format === "json") return true;
  const near = nearNames(format, ["text", "json"]);
  throw new CannotRun(
    `--format is "${format}". ${near.length > 0 ? `Did you mean ${near[0]}? ` : ""}It can be text or json.`,
  );
}

function jsonOf(explained: Explained): string {
  return `${JSON.stringify({ schema: "misce-working/1", ...explained, notice: safetyNotice }, null, 2)}\n`;
}

function headOf({ recipe, title, asOf, against }: Explained): string {
  const head = `${visible(`${recipe}: ${title}`)}\nas of ${asOf}`;
  const errors = againstLines(recipe, against).map(visible).join("\n");
  return errors === "" ? head : `${head}\n\n${errors}`;
}

function textOf(explained: Explained): string {
  const orders = explained.orders.map((order) => {
    const figures = order.figures.map(card);
    return [atLine(order), ...figures, incomplete(order)].filter((part) => part !== "").join("\n\n");
  });
  return `${[headOf(explained), ...orders, safetyNotice].join("\n\n")}\n`;
}

function atLine({ at }: ExplainedOrder): string {
  return at === "" ? "" : `For ${visible(at)}`;
}

function incomplete({ isIncomplete }: ExplainedOrder): string {
  return isIncomplete ? "Some figures cannot be worked out and are not told; misce check says why." : "";
}

function card({ label, text, lines }: ExplainedFigure): string {
  const working = lines.map((l) => `    ${visible(l.text)}`);
  return [
    `${visible(label)}: ${visible(text)}`,
    ...working,
    "    worked again by ____________  result ____________",
  ].join("\n");
}

function listOf(explained: Explained): string {
  const names = new Map<string, string[]>();
  for (const { figures } of explained.orders) {
    for (const { name, text } of figures) names.set(name, [...(names.get(name) ?? []), text]);
  }
  const width = Math.max(0, ...[...names.keys()].map((n) => n.length)) + 2;
  const rows = [...names].map(([name, texts]) => {
    const [first = "", last = first] = [texts[0], texts.at(-1)];
    return `  ${visible(name.padEnd(width))}${visible(first === last ? first : `${first} to ${last}`)}`;
  });
  const ends = explained.orders.map((o) => o.at).filter((at) => at !== "");
  const at = ends.length === 0 ? [] : [`For ${visible(ends.join(" and "))}`];
  const open = explained.orders.map(incomplete).find((text) => text !== "");
  const how = `misce explain ${explained.recipe} FIGURE shows the working of one, "all" that of each.`;
  return `${[headOf(explained), ...at, rows.join("\n"), ...(open ? [open] : []), visible(how), safetyNotice].join("\n\n")}\n`;
}
