/** For each drug of a recipe: what the batch needs of it, and which containers of one strength hold that with the least left over. */
import type { AmountKind } from "../bench/liquid.ts";
import type { Run } from "../bench/run.ts";
import type { Surroundings } from "../checks/chunk-finding.ts";
import type { Drug } from "../model/declaration.ts";
import { Exact } from "../quantities/exact.ts";
import { showQuantity } from "../quantities/quantity.ts";
import { amountQuantity } from "../working/amount-words.ts";
import { type Choice, leastWaste } from "./least-waste.ts";
import { lotChoice } from "./lots.ts";
import { type StockYield, stocksOf, yieldOf } from "./stock-yield.ts";

export interface Opening {
  /** `shared`: containers serve the whole batch, opened and used in one session. `each`: every run opens its own. */
  way: "shared" | "each";
  counts: Choice["counts"];
  containers: number;
  total: string;
  waste: string;
  /** For ranking: base units of the drug's kind. */
  exactWaste: Exact;
}

export interface StrengthOption {
  /** Stocks of this strength that it may take from. */
  stocks: readonly string[];
  strength: string;
  /** It is what the recipe itself names. */
  isOwn: boolean;
  openings: readonly Opening[];
}

export interface DrugPlan {
  drug: string;
  perRun: string;
  needed: string;
  /** By what is left over when containers are shared, then by their number. */
  options: readonly StrengthOption[];
  /** Stocks of the drug that were left aside, and why. */
  aside: readonly { stock: string; why: string }[];
}

export function drugPlans(run: Run, runs: number, around: Surroundings, mix: boolean): DrugPlan[] {
  return [...run.setup.drugs.values()].flatMap((drug) => {
    const name = drug.name.name;
    const own = new Set<string>();
    let perRun = Exact.zero;
    for (const { item, things } of run.groups.values()) {
      if (item?.kind !== "stock" || item.facts.one("drug")?.slots.drug.name !== name) continue;
      own.add(item.name.name);
      for (const { from, how, liquid } of run.steps.flatMap((s) => s.movements)) {
        // What goes into a powder vial is no drug taken from it; what is drawn from it is.
        if (from && things.includes(from) && how !== "push")
          perRun = perRun.plus(liquid.amounts.get(name) ?? Exact.zero);
      }
    }
    const kind = run.setup.kinds.get(name);
    return kind && perRun.isPositive() ? [planOf({ drug, kind, perRun, runs, own }, around, mix)] : [];
  });
}

interface Need {
  drug: Drug;
  kind: AmountKind;
  perRun: Exact;
  runs: number;
  own: ReadonlySet<string>;
}

function planOf(need: Need, around: Surroundings, mix: boolean): DrugPlan {
  const { drug, kind, perRun, runs, own } = need;
  const aside: { stock: string; why: string }[] = [];
  const usable = stocksOf(drug.name.name, around.lookup).flatMap((stock): StockYield[] => {
    const found = yieldOf(stock, drug);
    const why = asideWhy(found, kind, stock.name.name, own, around);
    if (why !== undefined) aside.push({ stock: stock.name.name, why });
    return typeof found === "string" || why !== undefined ? [] : [found];
  });
  const text = (value: Exact) => showQuantity(amountQuantity(value, kind));
  const options = byStrength(usable, mix)
    .flatMap((sizes) => optionOf(sizes, need, text))
    .sort((a, b) => {
      const [x, y] = [a.openings[0]!, b.openings[0]!];
      return x.exactWaste.compare(y.exactWaste) || x.containers - y.containers || Number(b.isOwn) - Number(a.isOwn);
    });
  const needed = text(perRun.times(Exact.of(runs)));
  return { drug: drug.name.name, perRun: text(perRun), needed, options, aside };
}

function asideWhy(
  found: StockYield | string,
  kind: AmountKind,
  stock: string,
  own: ReadonlySet<string>,
  { lookup, asOf }: Surroundings,
): string | undefined {
  if (lookup.second(stock)) return "its name is declared twice, and which is meant would be a guess";
  if (typeof found === "string") return found;
  if (found.kind !== kind) return "its label counts the drug in another kind of unit";
  if (!found.yields.isPositive()) return "it yields nothing by its label";
  const isPremixed = found.stock.facts.one("premixed")?.slots.answer.choice === "yes";
  if (isPremixed && !own.has(stock)) return "it is ready to use, nothing is drawn from it";
  return lotChoice(stock, lookup, asOf).use.length > 0 ? undefined : "no lot in date on the shelf";
}

/** Strengths are never mixed unless asked: two of them in one hand are how a tenfold error begins. */
function byStrength(usable: readonly StockYield[], mix: boolean): StockYield[][] {
  if (mix) return usable.length > 0 ? [[...usable]] : [];
  const groups = new Map<string, StockYield[]>();
  for (const one of usable) {
    const key = one.perMl ? one.perMl.key() : `powder ${one.stock.name.name}`;
    groups.set(key, [...(groups.get(key) ?? []), one]);
  }
  return [...groups.values()];
}

function optionOf(
  sizes: readonly StockYield[],
  { perRun, runs, own, kind }: Need,
  text: (value: Exact) => string,
): StrengthOption[] {
  const list = sizes.map(({ stock, yields }) => ({ name: stock.name.name, yields }));
  const times = Exact.of(runs);
  const shared = leastWaste(perRun.times(times), list);
  const each = leastWaste(perRun, list);
  if (!shared || !each) return [];
  const opening = (way: Opening["way"], choice: Choice, by: number): Opening => {
    const factor = Exact.of(by);
    const exactWaste = choice.waste.times(factor);
    return {
      way,
      counts: choice.counts.map(({ name, count }) => ({ name, count: count * by })),
      containers: choice.containers * by,
      total: text(choice.total.times(factor)),
      waste: text(exactWaste),
      exactWaste,
    };
  };
  const strengths = new Set(sizes.map((s) => (s.perMl ? strengthText(s.perMl, kind) : "powder")));
  return [
    {
      stocks: list.map((s) => s.name),
      strength: [...strengths].join(" and "),
      isOwn: list.some((s) => own.has(s.name)),
      openings: [opening("shared", shared, 1), opening("each", each, runs)],
    },
  ];
}

/** Amount in a mL, in a handy unit. */
function strengthText(perMl: Exact, kind: AmountKind): string {
  return `${showQuantity(amountQuantity(perMl, kind))} in 1 mL`;
}
