/** Rows of dose, strength and rate beside what the recipe comes to: just on it, a little or far to either side, with holes and conditions. */
import type { DrugKind } from "../oracle/drugs.ts";
import { Fraction } from "../oracle/fraction.ts";
import type { Random } from "../oracle/random.ts";
import { measured } from "./judge-limits.ts";
import type { Condition, Edge, LimitKind, LimitRow, Limits, Monograph, Scenario } from "./scenario.ts";

const factors = ["1", "1", "0.5", "0.9", "0.99", "1.01", "1.1", "2"];
/** A dose that is wrong hides what follows from it: most are right. */
const wide = ["1", "1.01", "2", "10"];

/** As it can be written: exactly where there is a short decimal, otherwise to four figures. */
export function near(value: Fraction, factor: string): Fraction {
  const wanted = value.times(Fraction.of(factor));
  const text = wanted.decimal();
  return text !== undefined && text.replace(".", "").length <= 8 ? wanted : wanted.toFigures(4);
}

export const edge = (random: Random, value: Fraction, beside = factors): Edge => ({
  value: near(value, random.pick(beside)),
  included: beside === wide || random.chance(0.7),
});

/** One or two rows' ends, in rising order where there are both. */
function span(random: Random, value: Fraction, unit: string): Limits {
  const [low, high] = [edge(random, value), edge(random, value)];
  const way = random.between(0, 4);
  if (way === 0) return { low, unit };
  if (way <= 2 || low.value.against(high.value) >= 0) return { high, unit };
  return { low, high, unit };
}

function unitsOf(random: Random, kind: LimitKind, { units, ionUnits }: DrugKind, ion: boolean): string {
  const top = random.pick(ion ? ionUnits : units);
  const patient = random.pick(["", "", "/kg", "/m2"]);
  if (kind === "dose") return `${top}${patient}`;
  if (kind !== "rate") return `${top}/${random.pick(["mL", "L"])}`;
  if (random.chance(0.15)) return `mL${random.pick(["", "/kg"])}/${random.pick(["h", "min"])}`;
  return `${top}${patient}/${random.pick(["h", "min"])}`;
}

function condition(random: Random, scenario: Scenario, drug: string): Condition | undefined {
  const { weight, age } = scenario.order;
  if (weight && random.chance(0.5)) return { input: "weight", ...span(random, weight, "kg") };
  if (age && random.chance(0.5)) return { input: "age", ...span(random, age, "years") };
  const additive = scenario.additives.find((each) => each.drug === drug)!;
  if (additive.ion || additive.as || scenario.additives.length > 1) return undefined;
  const unit = additive.unit.split("/")[0]!;
  const dose = measured(scenario, drug, { kind: "dose", unit });
  return dose && { input: "dose", ...span(random, dose, unit) };
}

const isWhole = ({ low, high }: Limits): boolean => low !== undefined || high !== undefined;

export function limitRows(random: Random, scenario: Scenario, drug: Monograph, kind: DrugKind, isRanged = false): void {
  const { name, salt } = drug.fact;
  for (const of of ["dose", "concentration", "usual-concentration", "rate"] as const) {
    const count = random.pick(of === "usual-concentration" ? [0, 0, 1] : [1, 1, 2, 3]);
    for (let i = 0; i < count; i++) {
      const isIon = kind.ionUnits.length > 0 && (kind.units[0] === "mmol" || random.chance(0.3));
      const row: LimitRow = {
        kind: of,
        unit: unitsOf(random, of, kind, isIon).replace("/m2", isRanged ? "/kg" : "/m2"),
        route: random.pick(["any", "intravenous", "intravenous", "intravenous", "intramuscular"] as const),
      };
      const isVolume = row.unit.startsWith("mL");
      if (isIon && !isVolume) row.ion = drug.fact.ion!.name;
      else if (salt && !isVolume) row.as = random.pick([salt.base, salt.name]);
      if (of !== "dose" && random.chance(0.3)) row.access = random.pick(["peripheral", "central"] as const);
      if (of !== "dose" && random.chance(0.3)) row.use = random.pick(["bolus", "infusion"] as const);
      const value = measured(scenario, name, row);
      if (!value) {
        // Nothing of the order can be laid against it.
        row.high = { value: Fraction.of(10), included: true };
      } else if (of === "dose" && random.chance(0.6)) row.high = edge(random, value, wide);
      else Object.assign(row, span(random, value, row.unit));
      const when = random.chance(0.25) ? condition(random, scenario, name) : undefined;
      if (when && isWhole(when)) row.when = when;
      drug.limits.push(row);
      // A second window above or below it, and a hole between.
      if (value && row.high && random.chance(0.2)) {
        const from = row.high.value.times(Fraction.of(random.pick(["1.2", "2"])));
        drug.limits.push({
          ...row,
          low: { value: near(from, "1"), included: random.chance(0.7) },
          high: { value: near(from, "3"), included: true },
        });
      }
    }
  }
}
