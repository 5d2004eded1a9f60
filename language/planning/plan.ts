/**
 * What a batch takes from the shelf: for each drug the containers with the least left over, for each material which lot first, and
 * what would change if a stock were short. The amounts are those that the recipe draws on the bench; nothing is decided here.
 */
import { type Run, runRecipe } from "../bench/run.ts";
import { vesselsOf } from "../bench/setup.ts";
import type { Library } from "../library.ts";
import { dateText } from "../model/dates.ts";
import type { Stock } from "../model/declaration.ts";
import { showQuantity } from "../quantities/quantity.ts";
import { orderPoint } from "../sheet/order-point.ts";
import { isSheetRefusal, type SheetRefusal } from "../sheet/sheet.ts";
import { theRecipe } from "../sheet/sheet-data.ts";
import { type Against, errorsAgainst } from "../sheet/standing-findings.ts";
import { counted } from "../working/pieces.ts";
import { type DrugPlan, drugPlans } from "./drug-plan.ts";
import { type LotChoice, lotChoice } from "./lots.ts";
import { type ShortRecipe, withoutStock } from "./shortage.ts";

export interface PlanRequest {
  recipe: string;
  /** Input of the order → what was typed. */
  inputs: ReadonlyMap<string, string>;
  /** Finished containers; undefined for what one run makes. */
  bags: string | undefined;
  /** Several strengths of one drug may be opened for one preparation. */
  mixStrengths: boolean;
}

export interface MaterialPlan {
  name: string;
  stock: string;
  /** As the recipe uses it: opened anew for each run. */
  perRun: number;
  inAll: number;
  text: string;
  lots: LotChoice;
}

export interface Plan {
  recipe: string;
  title: string;
  asOf: string;
  /** `weight 60 kg`; empty for an order without inputs. */
  at: string;
  runs: number;
  made: number;
  /** Errors that stand against the recipe: with any of them the plan is not to be relied on. */
  against: readonly Against[];
  materials: readonly MaterialPlan[];
  drugs: readonly DrugPlan[];
  /** For each stock of the recipe. */
  ifShort: readonly ({ stock: string } & ShortRecipe)[];
}

/** More finished containers than this are planned in parts. */
const mostMade = 500;

export function planBatch(library: Library, request: PlanRequest): Plan | SheetRefusal {
  const recipe = theRecipe(library, request.recipe);
  if (isSheetRefusal(recipe)) return recipe;
  const point = orderPoint(recipe, request.inputs);
  if (isSheetRefusal(point)) return point;
  const around = library.surroundings();
  const run = runRecipe(recipe, around.lookup, around.policy, { point, overfill: "label" });
  if (run.unknown) {
    return {
      refusal: `Some figures of ${recipe.name.name} cannot be worked out, so nothing is planned. misce check says why.`,
    };
  }
  const size = batchOf(run, request.bags);
  if (isSheetRefusal(size)) return size;
  const stocks = stocksIn(run);
  return {
    recipe: recipe.name.name,
    title: recipe.facts.one("title")?.slots.text.text ?? recipe.name.name,
    asOf: dateText(around.asOf),
    at: [...point].map(([input, value]) => `${input.replace("-", " ")} ${showQuantity(value)}`).join(", "),
    ...size,
    against: errorsAgainst(library, recipe, [run]),
    materials: materialPlans(run, size.runs, library),
    drugs: drugPlans(run, size.runs, around, request.mixStrengths),
    ifShort: stocks.map((stock) => ({ stock: stock.name.name, ...withoutStock(recipe, stock, around) })),
  };
}

/** One run makes what the recipe says; a batch is a whole number of runs. */
function batchOf(run: Run, bags: string | undefined): { runs: number; made: number } | SheetRefusal {
  const each = Math.max(1, run.finals.length);
  if (bags === undefined) return { runs: 1, made: each };
  if (!/^[1-9]\d*$/.test(bags)) return { refusal: `--bags is "${bags}". Write a whole number above zero.` };
  const made = Number(bags);
  if (made > mostMade) return { refusal: `--bags is ${bags}; one plan covers at most ${mostMade}. Plan in parts.` };
  if (made % each === 0) return { runs: made / each, made };
  const name = run.recipe.name.name;
  return {
    refusal: `${name} makes ${each} at a time; ${made} is no whole number of runs. Ask for a multiple of ${each}.`,
  };
}

function stocksIn(run: Run): Stock[] {
  const stocks = new Map<string, Stock>();
  for (const { item } of run.groups.values()) if (item?.kind === "stock") stocks.set(item.name.name, item);
  return [...stocks.values()];
}

function materialPlans(run: Run, runs: number, library: Library): MaterialPlan[] {
  const { lookup, asOf } = library.surroundings();
  return [...run.groups.values()].flatMap((group): MaterialPlan[] => {
    if (group.item?.kind !== "stock") return [];
    const perRun = vesselsOf(group).length;
    const stock = group.item.name.name;
    const inAll = perRun * runs;
    return [
      { name: group.name, stock, perRun, inAll, text: counted(group, inAll), lots: lotChoice(stock, lookup, asOf) },
    ];
  });
}
