/** Scenarios by their seeds: the recipe first, then monographs whose figures lie beside what it comes to, on either side or just on it. */
import { type DrugKind, drugKinds, saltDrug } from "../oracle/drugs.ts";
import { figure } from "../oracle/figure.ts";
import { Fraction } from "../oracle/fraction.ts";
import type { DrugFact, FluidFact } from "../oracle/program.ts";
import { Random } from "../oracle/random.ts";
import { glucose, mL, saline } from "../oracle/shelf.ts";
import { doseFigure, volumeOf } from "./amounts.ts";
import { deviate } from "./generate-deviations.ts";
import { limitRows } from "./generate-limits.ts";
import { meetings, stableRows } from "./generate-stability.ts";
import { shelf } from "./generate-stock.ts";
import type { Additive, Monograph, Scenario, Time } from "./scenario.ts";

const potassium: DrugKind = {
  fact: {
    name: "potassium-chloride",
    formula: [
      ["K", 1],
      ["Cl", 1],
    ],
    formulaText: "KCl",
    ion: { name: "potassium", charge: 1, count: 1 },
  },
  units: ["mg", "g"],
  ionUnits: ["mmol", "mEq"],
  strengths: [150],
};

export const kinds: readonly DrugKind[] = [...drugKinds, saltDrug, potassium];

const times = {
  short: [
    { number: 20, unit: "min" },
    { number: 30, unit: "min" },
    { number: 90, unit: "min" },
  ],
  long: [
    { number: 2, unit: "h" },
    { number: 4, unit: "h" },
    { number: 8, unit: "h" },
    { number: 24, unit: "h" },
    { number: 30, unit: "h" },
  ],
} as const satisfies Record<string, readonly Time[]>;

export function scenario(seed: number): Scenario {
  for (let attempt = 0; attempt < 50; attempt++) {
    const random = new Random(seed * 50 + attempt);
    try {
      return drafted(random);
    } catch (stopped) {
      if (!(stopped instanceof RangeError)) throw stopped;
    }
  }
  throw new Error(`no scenario comes of seed ${seed}`);
}

function drafted(random: Random): Scenario {
  const fluid: FluidFact = random.pick([saline, glucose]);
  const chosen = new Set<DrugKind>();
  const count = random.pick([1, 1, 1, 2, 2, 3]);
  while (chosen.size < count) chosen.add(random.pick(kinds));
  const additives = [...chosen].map((kind) => additive(random, kind, count === 1));
  const drawn = additives.reduce((sum, { volume }) => sum.plus(volume), Fraction.zero);
  const total = random.pick([50, 100, 100, 200, 250, 500, 1000].map((each) => Fraction.of(each)));
  const fill = random.chance(0.7) ? total.minus(drawn) : total;
  if (fill.against(Fraction.of(20)) < 0) throw new RangeError("a bag too small");
  const isPeripheral = random.chance(0.5);
  const drugs: Monograph[] = [...chosen].map(({ fact }) => ({
    fact,
    limits: [],
    stable: [],
    compatible: [],
    incompatible: [],
    addedBefore: [],
    together: [],
    materials: [],
    light: random.chance(0.3) ? "protect-always" : "not-sensitive",
  }));
  const made: Scenario = {
    asOf: random.pick(["2026-11-25", "2026-11-30", "2026-12-31", "2028-02-28"]),
    site: {
      edition: random.pick(["wisconsin-phar-15", "wisconsin-phar-15", "uk-section-10"] as const),
      expiryAhead: random.pick([30, 14, 60]),
      severity: [],
      neverSilenced: [],
    },
    drugs,
    fluid,
    bag: {
      name: "bag-of-fluid",
      container: "bag",
      fluid: fluid.name,
      fill: mL(fill),
      capacity: mL(fill.plus(Fraction.of(200))),
      ...(random.chance(0.85) ? { madeOf: random.pick(["polyolefin", "pvc"]) } : {}),
    },
    additives,
    order: {
      ...(random.chance(0.7) ? { weight: Fraction.of(random.pick([3, 8, 20, 50, 70])) } : {}),
      ...(random.chance(0.5) ? { age: Fraction.of(random.pick([1, 6, 30])) } : {}),
      ...(random.chance(0.3) ? { surface: Fraction.of(random.pick(["0.5", "1.6", "2"])) } : {}),
      access: isPeripheral ? "peripheral" : "central",
      use: random.pick(["infusion", "infusion", "infusion", "bolus", "titrated"] as const),
    },
    covered: random.chance(0.5),
    useWithin: [],
    tested: random.chance(0.2),
    lots: new Map(),
    deviations: [],
  };
  if (made.site.edition === "wisconsin-phar-15") made.site.category = random.pick([1, 2]);
  byPatient(random, made);
  if (count === 1 && random.chance(0.15))
    made.order.use = random.pick(["part-of-container", "part-of-container as bolus"] as const);
  giving(random, made);
  pump(random, made);
  osmolarity(random, made);
  for (const drug of drugs) limitRows(random, made, drug, [...chosen].find(({ fact }) => fact === drug.fact)!);
  stableRows(random, made);
  meetings(random, made);
  shelf(random, made);
  deviate(random, made);
  return made;
}

function additive(random: Random, { fact, units, strengths, contains }: DrugKind, isOnly: boolean): Additive {
  const as = asWhat(random, fact);
  const strength = figure(random.pick(strengths), `${units[0]}/mL`, asWhat(random, fact) ?? {});
  return {
    drug: fact.name,
    product: {
      name: `${fact.name}-product`,
      container: "vial",
      drug: fact.name,
      strength,
      fill: mL(100),
      ...(contains ? { contains } : {}),
      osmolarity: random.between(200, 900),
      doses: random.pick(["single", "multiple"] as const),
    },
    volume: Fraction.of(random.between(isOnly ? 2 : 4, 40))
      .over(Fraction.of(random.pick([1, 2])))
      .plus(Fraction.of(2)),
    unit: units[0]!,
    ...(as ?? {}),
  };
}

const asWhat = (random: Random, { salt }: DrugFact): { as: string } | undefined =>
  salt && { as: random.pick([salt.base, salt.name]) };

/** The ways in which this amount can be written without rounding; the label's own unit is always one. */
function byPatient(random: Random, made: Scenario): void {
  for (const each of made.additives) {
    const { units, ionUnits, fact } = kinds.find(({ fact: { name } }) => name === each.drug)!;
    const patient = made.additives.length === 1 && made.order.weight ? ["", "/kg"] : [""];
    const ways: Pick<Additive, "unit" | "ion">[] = [...units, ...ionUnits].flatMap((unit) =>
      patient.map((part) => ({
        unit: `${unit}${part}`,
        ...(ionUnits.includes(unit) && units[0] !== unit ? { ion: fact.ion!.name } : {}),
      })),
    );
    const able = ways.filter((way) => ordersPlainly(made, { ...each, ...way }));
    if (able.length === 0) throw new RangeError("no dose to write");
    Object.assign(each, random.pick(able));
  }
}

function ordersPlainly(made: Scenario, each: Additive): boolean {
  const { value, unit } = doseFigure(made, each);
  const text = value.over(figure(1, unit).value).decimal();
  return text !== undefined && text.length <= 9;
}

function giving(random: Random, made: Scenario): void {
  const { order } = made;
  const over: Time = random.pick([...times.short, ...times.long]);
  const way = random.between(0, 3);
  const isTitrated = order.use === "titrated";
  if (order.use.endsWith("bolus") || (way <= 1 && !isTitrated)) {
    order.over = over;
    return;
  }
  const volume = volumeOf(made);
  const hours = Fraction.of(over.number)
    .times(Fraction.of(over.unit === "min" ? "1" : "60"))
    .over(Fraction.of(60));
  const [only] = made.additives;
  const exactly = volume.over(hours);
  const rate = exactly.decimal() && exactly.decimal()!.length < 7 ? exactly : exactly.toFigures(4);
  order.at = { number: rate, unit: "mL/h" };
  if (made.additives.length === 1 && !only!.ion && random.chance(0.4)) {
    const unit = only!.unit.split("/")[0]!;
    const perKg = order.weight && random.chance(0.5) ? "/kg" : "";
    order.at = {
      number: Fraction.of(random.pick(["0.5", "2", "10", "50", "120"])),
      unit: `${unit}${perKg}/${random.pick(["h", "min"])}`,
      ...(only!.as ? { as: only!.as } : {}),
    };
    return;
  }
  if (way === 3 && !isTitrated) {
    order.over = over;
    if (random.chance(0.4))
      order.at = { ...order.at, number: rate.times(Fraction.of(random.pick(["0.5", "1.5", "2"]))) };
  }
}

/** A step that the rate is a multiple of, or is off by some percent, five among them. */
function pump(random: Random, made: Scenario): void {
  if (random.chance(0.4)) made.site.pumpStep = Fraction.of(random.pick(["0.1", "1", "5", "10", "20"]));
}

function osmolarity(random: Random, made: Scenario): void {
  const { additives, fluid, bag } = made;
  const all = additives.reduce(
    (sum, { product, volume }) => sum.plus(Fraction.of(product.osmolarity!).times(volume)),
    Fraction.of(fluid.osmolarity).times(bag.fill!.value),
  );
  const value = all.over(volumeOf(made));
  if (random.chance(0.6)) {
    const whole = Number(value.n / value.d);
    made.site.osmolarity = whole + random.pick([-50, 0, 1, 50]);
  }
}
