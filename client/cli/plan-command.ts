/** `misce plan`: what a batch takes from the shelf, and what a shortage would change. */
import type { Opening, StrengthOption } from "../../language/planning/drug-plan.ts";
import type { LotChoice } from "../../language/planning/lots.ts";
import type { Plan } from "../../language/planning/plan.ts";
import type { Shortage, ShortRecipe, UsingRecipe } from "../../language/planning/shortage.ts";
import { isSheetRefusal } from "../../language/sheet/sheet.ts";
import { safetyNotice } from "../../shared/report.ts";
import { againstLines, tellAgainst } from "./against.ts";
import { requireDay, today } from "./as-of.ts";
import { CannotRun } from "./cannot-run.ts";
import type { Adviser, Engine } from "./engine-contract.ts";
import { wantsJson } from "./figure-command.ts";
import { openLibraries, openRecipe, type RecipeFlags } from "./open-recipe.ts";
import { inputsOf, type OrderFlags } from "./order-flags.ts";
import { visible } from "./reports/visible.ts";
import type { Surroundings } from "./surroundings.ts";

export interface PlanFlags extends RecipeFlags, OrderFlags {
  bags?: string;
  mixStrengths?: boolean;
  without?: string;
  asOf?: string;
  format?: string;
}

/** @returns exit status: 0 planned, 1 planned while errors stand against the recipe, the stock or a recipe that uses it */
export async function planCommand(
  recipe: string | undefined,
  flags: PlanFlags,
  engine: Engine,
  surroundings: Surroundings,
): Promise<0 | 1> {
  const adviser = await engine.adviser?.();
  if (!adviser) throw new CannotRun("This engine plans nothing.");
  const isJson = wantsJson(flags.format);
  const day = flags.asOf === undefined ? today(surroundings.now()) : requireDay(flags.asOf);
  if (recipe === undefined) {
    if (flags.without === undefined) throw new CannotRun("Name a recipe to plan, or a stock with --without STOCK.");
    const shortages = await shortagesOf(flags.without, flags, engine, adviser, surroundings, day);
    const json = { schema: "misce-shortage/1", shortages, notice: safetyNotice };
    surroundings.stdout.write(isJson ? `${JSON.stringify(json, null, 2)}\n` : shortageText(shortages));
    const against = shortages.flatMap((s) => s.against);
    if (isJson) tellAgainst(flags.without, against, surroundings.stderr);
    return against.length > 0 || shortages.some((s) => s.recipes.some((r) => r.against.length > 0)) ? 1 : 0;
  }
  if (flags.without !== undefined) {
    throw new CannotRun("--without asks about every recipe of the library. Leave out the recipe, or the flag.");
  }
  const { library, name } = await openRecipe(recipe, flags, engine, adviser, surroundings, day);
  const inputs = inputsOf(flags);
  const mixStrengths = flags.mixStrengths ?? false;
  const plan = adviser.plan(library, { recipe: name, inputs, bags: flags.bags, mixStrengths });
  if (isSheetRefusal(plan)) throw new CannotRun(plan.refusal);
  const json = { schema: "misce-plan/1", ...plain(plan), notice: safetyNotice };
  surroundings.stdout.write(isJson ? `${JSON.stringify(json, null, 2)}\n` : planText(plan));
  if (isJson) tellAgainst(plan.recipe, plan.against, surroundings.stderr);
  return plan.against.length > 0 ? 1 : 0;
}

/** The exact figure that ranks the options stays inside; what is left over is told in words with its unit. */
function plain(plan: Plan) {
  const opening = ({ exactWaste: _, ...rest }: Opening) => rest;
  const drugs = plan.drugs.map((drug) => ({
    ...drug,
    options: drug.options.map((option) => ({ ...option, openings: option.openings.map(opening) })),
  }));
  return { ...plan, drugs };
}

async function shortagesOf(
  stock: string,
  flags: PlanFlags,
  engine: Engine,
  adviser: Adviser,
  surroundings: Surroundings,
  day: string,
): Promise<Shortage[]> {
  const libraries = await openLibraries([flags.library ?? "."], flags, engine, surroundings, day);
  const answers = libraries.map((library) => adviser.shortage(library, stock));
  const found = answers.flatMap((a) => (isSheetRefusal(a) ? [] : [a]));
  const [refusal] = answers.flatMap((a) => (isSheetRefusal(a) ? [a.refusal] : []));
  if (found.length === 0) throw new CannotRun(refusal ?? "No library was found here. Name its folder with --library.");
  return found;
}

function planText(plan: Plan): string {
  const { recipe, title, asOf, at, runs, made } = plan;
  const containers = made === 1 ? "1 finished container" : `${made} finished containers`;
  const how = runs === 1 ? "one run" : `${runs} runs`;
  const head = [`${recipe}: ${title}`, `as of ${asOf}${at === "" ? "" : `, for ${at}`}: ${containers} in ${how}`];
  const drugs = plan.drugs.map((drug) => {
    const need = runs === 1 ? drug.needed : `${drug.needed} (${drug.perRun} for each run)`;
    const options = drug.options.flatMap((option, i) => optionLines(option, i === 0, runs));
    const none = options.length === 0 ? ["  No stock in date holds it; nothing can be planned."] : options;
    return [`${drug.drug}: ${need}`, ...none, ...drug.aside.map((a) => `  not counted: ${a.stock}, ${a.why}`)];
  });
  const materials = plan.materials.map((m) => [
    `${m.name}: ${m.text} of ${m.stock}, as the recipe opens them`,
    ...lotLines(m.lots),
  ]);
  const short = plan.ifShort.map((one) => shortLines(`Without ${one.stock}`, one));
  const shared =
    runs > 1 ? ["Containers are shared over the batch only where they are opened and used in one session."] : [];
  const blocks = [head, againstLines(recipe, plan.against), ...drugs, ...materials, ...short, shared].filter(
    (block) => block.length > 0,
  );
  return `${[...blocks.map((block) => block.map(visible).join("\n")), safetyNotice].join("\n\n")}\n`;
}

function optionLines({ openings, isOwn, strength }: StrengthOption, isBest: boolean, runs: number): string[] {
  const own = isOwn ? ", as in the recipe" : "";
  return openings
    .filter((o) => runs > 1 || o.way === "shared")
    .map((o) => {
      const counts = o.counts.map(({ name, count }) => `${count} x ${name}`).join(" + ");
      const way = runs === 1 ? "" : o.way === "shared" ? "shared over the batch: " : "opened anew for each run: ";
      const best = isBest && o.way === "shared" ? "; least left over" : "";
      return `  ${way}${counts} (${strength}${own}): ${o.total} in all, ${o.waste} left over${best}`;
    });
}

function lotLines({ use, leave }: LotChoice): string[] {
  const first = use.map(({ lot, expires, daysLeft }, i) => {
    const word = i === 0 ? "use first" : "then";
    return `  ${word}: lot ${lot}, expires ${expires}, ${daysLeft === 1 ? "1 day" : `${daysLeft} days`} left`;
  });
  const none = first.length === 0 ? ["  no lot in date on the shelf"] : first;
  return [...none, ...leave.map(({ lot, why }) => `  leave: lot ${lot}, ${why}`)];
}

/** Findings told of one replacement; JSON has all of them. */
const mostTold = 4;

function shortLines(head: string, { alternatives }: ShortRecipe): string[] {
  if (alternatives.length === 0) return [`${head}: the library has no other stock of the same`];
  return [
    `${head}:`,
    ...alternatives.flatMap(({ by, verdict, appear, isOnShelf }) => {
      const shelf = isOnShelf ? "" : ", but no lot of it is in date on the shelf";
      if (verdict === "works") return [`  ${by}: nothing new is found${shelf}`];
      const grave = appear.filter((f) => f.severity !== "note");
      const found = grave.slice(0, mostTold).map((f) => `    ${f.severity}: ${f.message}`);
      const more = grave.length - mostTold;
      if (more > 0) found.push(`    and ${more} more ${more === 1 ? "finding" : "findings"}`);
      return [`  ${by}: the recipe would have to change${shelf}`, ...found];
    }),
  ];
}

function usingLines(recipe: UsingRecipe): string[] {
  const errors = recipe.against.map(({ name, message }) => `  error as it is now: ${name}: ${message}`);
  return [...shortLines(recipe.recipe, recipe), ...errors];
}

function shortageText(shortages: readonly Shortage[]): string {
  const blocks = shortages.flatMap(({ stock, asOf, against, recipes }) => {
    const still = recipes.filter((r) => r.stillWorks).length;
    const head = `${stock}, as of ${asOf}: used by ${recipes.length} ${recipes.length === 1 ? "recipe" : "recipes"}, of which ${still} still ${still === 1 ? "works" : "work"} with another stock on the shelf`;
    return [[head], againstLines(stock, against), ...recipes.map(usingLines)];
  });
  const told = blocks.filter((block) => block.length > 0);
  return `${[...told.map((block) => block.map(visible).join("\n")), safetyNotice].join("\n\n")}\n`;
}
