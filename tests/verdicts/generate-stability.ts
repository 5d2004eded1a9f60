/** Rows of stability, storage, what goes together, materials and filters, each fitting or missing by one condition. */
import { Fraction } from "../oracle/fraction.ts";
import type { Random } from "../oracle/random.ts";
import { ionHeld, volumeOf } from "./amounts.ts";
import { edge, near } from "./generate-limits.ts";
import { measured } from "./judge-limits.ts";
import type { Limits, Monograph, Pore, Scenario, StableRow, Time } from "./scenario.ts";

const hours: readonly Time[] = [4, 8, 12, 24, 36, 48].map((number) => ({ number, unit: "h" }));
const days: readonly Time[] = [1, 4, 5, 7, 8, 10, 11, 30, 31].map((number) => ({ number, unit: "days" }));
const mixed: readonly Time[] = [
  ...([24, 48, 96].map((number) => ({ number, unit: "h" })) as Time[]),
  ...([1, 2, 4, 30, 31].map((number) => ({ number, unit: "days" })) as Time[]),
  { number: 1, unit: "months" },
  { number: 2, unit: "months" },
];

export function stableRows(random: Random, scenario: Scenario): void {
  const list = random.pick([hours, hours, days, mixed]);
  for (const at of ["room-temperature", "refrigerator"] as const)
    if (at === "room-temperature" || random.chance(0.4)) scenario.useWithin.push({ time: random.pick(list), at });
  for (const additive of scenario.additives) {
    const { product, filter } = additive;
    if (
      product.doses === "multiple" &&
      !filter &&
      additive.volume.n % 2n === 0n &&
      additive.volume.d === 1n &&
      random.chance(0.3)
    )
      additive.again = random.pick([
        { number: 2, unit: "h" },
        { number: 24, unit: "h" },
        { number: 25, unit: "h" },
      ] as const);
    if (random.chance(0.2))
      additive.waitBefore = random.pick([
        { number: 30, unit: "min" },
        { number: 2, unit: "h" },
      ] as const);
  }
  for (const drug of scenario.drugs) {
    const count = random.between(1, 3);
    for (let i = 0; i < count; i++) drug.stable.push(row(random, scenario, drug, list));
  }
}

function row(random: Random, scenario: Scenario, { fact }: Monograph, list: readonly Time[]): StableRow {
  const { fluid, bag } = scenario;
  const additive = scenario.additives.find(({ drug }) => drug === fact.name)!;
  const isCounted = additive.product.strength!.unit.split("/")[0]!;
  const concentration = isCounted === "mmol" || random.chance(0.6) ? undefined : strengths(random, scenario, fact.name);
  const time = random.pick(list);
  return {
    in: random.pick([fluid.name, fluid.name, "any", "water-for-injection"]),
    at: random.pick(["room-temperature", "room-temperature", "refrigerator", "any"] as const),
    ...(concentration ? { concentration } : {}),
    ...(concentration && fact.salt ? { as: fact.salt.name } : {}),
    madeOf: random.pick(["any", "any", bag.madeOf ?? "any", "polyolefin", "pvc"]),
    light: random.pick(["any", "any", "protected"] as const),
    countedFrom: random.pick(["mixing", "mixing", "opening"] as const),
    for: time,
  };
}

function strengths(random: Random, scenario: Scenario, drug: string): Limits | undefined {
  const own = scenario.additives.find((each) => each.drug === drug)!;
  const unit = own.product.strength!.unit;
  const { salt } = scenario.drugs.find(({ fact }) => fact.name === drug)!.fact;
  const value = measured(scenario, drug, { kind: "concentration", unit, ...(salt ? { as: salt.name } : {}) });
  if (!value) return undefined;
  const [low, high] = [edge(random, value), edge(random, value)];
  if (random.chance(0.3)) return { high, unit };
  return low.value.against(high.value) < 0 ? { low, high, unit } : { low, unit };
}

const pores = ["0.2", "1.2", "5"];

const pore = (random: Random): Pore => ({
  rule: random.pick(["required", "never"] as const),
  ...(random.chance(0.7) ? { micrometres: random.pick(pores) } : {}),
});

export function meetings(random: Random, scenario: Scenario): void {
  const { additives, drugs, fluid, order } = scenario;
  if (random.chance(0.4)) order.inLineFilter = random.pick(pores);
  for (const additive of additives) if (random.chance(0.3)) additive.filter = random.pick(pores);
  drugs.forEach((drug, i) => {
    const way = random.between(0, 9);
    if (way === 0) drug.incompatible.push(fluid.name);
    else if (way > 1) drug.compatible.push(fluid.name);
    for (const other of drugs.slice(0, i)) {
      const [one, two] = random.chance(0.5) ? [drug, other] : [other, drug];
      const told = random.between(0, 9);
      if (told === 0) one.incompatible.push(two.fact.name);
      else if (told > 1) one.compatible.push(two.fact.name);
      if (random.chance(0.15)) one.addedBefore.push(two.fact.name);
      ions(random, scenario, one, two);
    }
    if (random.chance(0.3)) drug.filter = pore(random);
    if (random.chance(0.3)) drug.inLine = pore(random);
    if (random.chance(0.3))
      drug.materials.push({
        material: random.pick(["polyolefin", "pvc"]),
        suits: random.chance(0.2),
        ...(random.chance(0.5) ? { over: random.pick(["30 min", "2 h", "4 h", "24 h"].map(time)) } : {}),
      });
  });
}

function time(text: string): Time {
  const [number, unit] = text.split(" ");
  return { number: Number(number), unit: unit as Time["unit"] };
}

function ions(random: Random, scenario: Scenario, one: Monograph, two: Monograph): void {
  const [first, second] = [one.fact.ion?.name, two.fact.ion?.name];
  if (!first || !second || first === second || random.chance(0.3)) return;
  const litres = volumeOf(scenario).over(Fraction.of(1000));
  const upTo = (ion: string) =>
    near(ionHeld(scenario, ion).over(litres), random.pick(["0.5", "1", "1.01", "1.1", "2", "4"]));
  one.together.push({ one: first, upTo: upTo(first), other: second, otherUpTo: upTo(second) });
}
