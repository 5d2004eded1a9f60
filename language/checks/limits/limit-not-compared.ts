import { isGivenAtOnce } from "../../bench/given-at-once.ts";
import { rowAt } from "../../bench/order-rows.ts";
import { orderedRate } from "../../bench/rates.ts";
import type { Run } from "../../bench/run.ts";
import { allOf } from "../../bench/spoken.ts";
import type { Vessel } from "../../bench/things.ts";
import type { Drug, Recipe } from "../../model/declaration.ts";
import { isShownAsError } from "../../model/shown-as-error.ts";
import type { Spot } from "../../model/slots.ts";
import type { Quantity } from "../../quantities/quantity.ts";
import { recipeCheck } from "../check.ts";
import type { RecipeContext } from "../context.ts";
import { example } from "../example.ts";
import { expectedOf } from "../units/expected.ts";
import { isFormTold } from "../units/salt-forms.ts";
import { isGivingNotKnown, isNotKnown } from "../unread-facts.ts";
import { type LimitRow, limitsText } from "./limit-row.ts";
import { breaches } from "./limit-rows.ts";
import { isOfWhichNotSaid, isPartNotSaid, rateBreaches } from "./rates.ts";

const usual = "Add it, or state the limit in the unit of the strength";
const notFast = "the order does not say how fast it is given";
const sayHowFast = "State `infuse-over` or `infuse-at`";
const asBolus = "or `use part-of-container as bolus` where the part is given at once";
const sayAtOnce = `${sayHowFast}, ${asBolus}`;

interface Unsaid {
  at: Spot;
  drug: Drug;
  rows: readonly LimitRow[];
  /** What is limited: the drug, or an ion of it. */
  ion: string;
}

interface NotCompared extends Unsaid {
  what: string;
  missing: string;
  remedy: string;
  /** Further limits that wait for the same. */
  others?: readonly Unsaid[];
}

export const limitNotCompared = recipeCheck<NotCompared>({
  name: "limit-not-compared",
  family: "limits",
  severity: "warning",
  title: "A declared limit that could not be laid against the preparation",
  why: "A limit that is not checked must not look as if it had been kept.",
  source: "common practice",
  bad: example([
    "  rate           up to 9 g/h for route intravenous\n",
    "  rate           up to 100 mg/kg/h for route intravenous\n",
  ]),
  good: example(),
  *find(context) {
    for (const { at, drug, vessel, side, rows, now, what: ion } of [
      ...breaches(context, "concentration"),
      ...breaches(context, "usual-concentration"),
    ]) {
      if (side === "unknown" && !isUnread(drug, "concentration") && !isOfFormTold(drug, rows, [], context))
        yield {
          at,
          drug,
          rows,
          ion,
          what: "concentration",
          ...(now
            ? { missing: "the figures of its order and monograph do not convert into each other", remedy: usual }
            : ionNotKnown(ion, vessel)),
        };
    }
    let isWhichTold = false;
    const withoutSpeed: Unsaid[] = [];
    let isPartTold = false;
    for (const { at, drug, side, rows, rate, vessel, held, what: ion } of rateBreaches(context)) {
      if (side !== "unknown" || (!rate && (isGivingNotKnown(context.recipe) || isRowTold(context)))) continue;
      if (isGivingTold(context) || isUnread(drug, "rate") || isOfFormTold(drug, rows, context.runs, context)) continue;
      const isWhich = !rate && context.runs.some((run) => isOfWhichNotSaid(context.recipe, run, vessel));
      // The same gap for each of them.
      if (isWhich && isWhichTold) continue;
      isWhichTold ||= isWhich;
      if (isWhich) {
        const others = vessel.liquid.drugs.join(" and ");
        const missing = `${vessel.name} holds ${others}, and \`infuse-at\` does not say of which it speaks`;
        yield { at, drug, rows, ion, what: "rate", missing, remedy: "State the rate in mL/h" };
        continue;
      }
      if (
        !rate &&
        givenAt(context.recipe).length === 0 &&
        context.runs.some((run) => isPartNotSaid(context.recipe, run))
      ) {
        // The same gap for each container and each limit.
        if (isPartTold) continue;
        isPartTold = true;
        const missing = `the order says how strong ${vessel.name} is, and not how much of it one patient gets`;
        const atOnce = isPartOfContainer(context.recipe) && rows.every(({ slots }) => slots.use?.choice === "infusion");
        const remedy = `State \`infuse-at\`${isGivenAtOnce(context.recipe) ? " in mL/min" : ""}, ${atOnce ? asBolus : "or order the dose and make a container that holds it"}`;
        yield { at, drug, rows, ion, what: "rate", missing, remedy };
        continue;
      }
      if (!held) {
        yield { at, drug, rows, ion, what: "rate", ...ionNotKnown(ion, vessel) };
        continue;
      }
      const missing =
        !rate && isInDrops(context.recipe)
          ? "it is given in drops, and the materials hold no set with its `drop-factor`"
          : rate || isGivingStated(context.recipe)
            ? "the order or the monograph lacks a figure for it, such as a weight, a formula or an ion"
            : notFast;
      if (missing === notFast) withoutSpeed.push({ at, drug, rows, ion });
      else yield { at, drug, rows, ion, what: "rate", missing, remedy: usual };
    }
    // One line of the order is missing, however many limits wait for it.
    const [first, ...others] = withoutSpeed;
    const remedy = isPartOfContainer(context.recipe) ? sayAtOnce : sayHowFast;
    if (first) yield { ...first, others, what: "rate", missing: notFast, remedy };
  },
  say: ({ what, missing, remedy, others = [], ...first }: NotCompared) => ({
    text: `The ${what} of ${limited([first, ...others])} was not checked: ${missing}. ${remedy}.`,
    related: [first, ...others].map(({ drug, rows }) => ({
      at: { start: rows[0]!.start, end: rows[0]!.end, chunk: drug.chunk },
      text: "the limit",
    })),
  }),
});

/** `potassium from potassium-phosphate (up to 10 mEq/h; from 2 mEq/h) and calcium-gluconate (up to 200 mg/min)` */
function limited(all: readonly Unsaid[]): string {
  const limits = new Map<string, string[]>();
  for (const { drug, rows, ion } of all) {
    const name = ion === drug.name.name ? ion : `${ion} from ${drug.name.name}`;
    limits.set(name, [...(limits.get(name) ?? []), limitsText(rows)]);
  }
  return allOf([...limits].map(([name, each]) => `${name} (${each.join("; ")})`));
}

/** Nobody knows how much of an ion there is, or no source of it is known. */
function ionNotKnown(ion: string, vessel: Vessel): { missing: string; remedy: string } {
  return {
    missing: `how much ${ion} ${vessel.name} holds is not known`,
    remedy: `State \`contains ${ion}\` in the stock, or \`ion ${ion}\` in the drug, or correct the name`,
  };
}

/** Given neither at a stated rate nor, as far as the order says, at once. */
function isPartOfContainer({ order }: Recipe): boolean {
  const use = order?.one("use")?.slots;
  return use?.use.choice === "part-of-container" && !use.given;
}

function isGivingStated({ order }: Recipe): boolean {
  return ["infuse-over", "infuse-at"].some((word) => (order?.all(word as "infuse-over").length ?? 0) > 0);
}

function givenAt({ order }: Recipe): readonly Quantity[] {
  return (order?.all("infuse-at") ?? []).flatMap(({ slots }) => slots.rate.quantity ?? []);
}

function isInDrops(recipe: Recipe): boolean {
  return givenAt(recipe).some((rate) => rate.unit.dimension.key === "drops/time");
}

/** The rate counts what the order does not state, or is no rate; both are told at the rate. */
function isGivingTold({ recipe, policy }: Pick<RecipeContext, "recipe" | "policy">): boolean {
  const fits = expectedOf({ block: "order", word: "infuse-at", slot: "rate" })!.fits;
  return givenAt(recipe).some(({ unit }) => {
    if (!fits.has(unit.dimension.key)) return isShownAsError("wrong-dimension", recipe, policy);
    const per = [
      ["bodyWeight", "weight"],
      ["area", "body-surface"],
    ] as const;
    const lacks = per.some(([axis, input]) => {
      const isPer = unit.parts.some(({ row, power }) => row.axis === axis && power < 0);
      return isPer && !recipe.order?.one(input) && !recipe.order?.isUnread(input);
    });
    return lacks && isShownAsError("per-kg-without-weight", recipe, policy);
  });
}

/** Of rows told apart by their conditions none holds, or it is not known which; both are told at the rows. */
function isRowTold({ recipe, runs, policy }: Pick<RecipeContext, "recipe" | "runs" | "policy">): boolean {
  const { order } = recipe;
  const isGiven = (run: Run) => rowAt(order?.all("infuse-over"), run) ?? rowAt(order?.all("infuse-at"), run);
  if (!isGivingStated(recipe) || runs.every(isGiven)) return false;
  return ["order-row-does-not-hold", "condition-not-judged"].every((name) => isShownAsError(name, recipe, policy));
}

/** The limit, or the rate that these runs order, counts a form that the drug does not declare. */
function isOfFormTold(drug: Drug, rows: readonly LimitRow[], runs: readonly Run[], context: RecipeContext): boolean {
  const named = [...rows.map(({ slots }) => slots.salt?.name), ...runs.map((run) => orderedRate(run)?.as)];
  return named.some((as) => isFormTold(drug, as, context));
}

/** The limit, or what its unit is turned by, stands in a line that is told as unread. */
function isUnread({ facts }: Drug, word: string): boolean {
  return [word, "formula", "ion"].some((each) => isNotKnown(facts, each));
}
