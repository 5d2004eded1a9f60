/** Orders by body weight: the same library at every weight of a range, with limits whose ends are met somewhere within it. */
import { figure } from "../oracle/figure.ts";
import { Fraction } from "../oracle/fraction.ts";
import { Random } from "../oracle/random.ts";
import { mL, saline } from "../oracle/shelf.ts";
import { size } from "./amounts.ts";
import { kinds } from "./generate.ts";
import { edge, limitRows, near } from "./generate-limits.ts";
import { measured } from "./judge-limits.ts";
import type { Range, Scenario } from "./scenario.ts";

const graduation = Fraction.of("0.5");

/** The order for one weight: what is given, and what the syringe is read at. */
export function atWeight(scenario: Scenario, weight: Fraction): Scenario {
  const { range, order } = scenario;
  const [only] = scenario.additives;
  const { given, calculated } = doseFor(range!, weight);
  const strength = only!.product.strength!.value;
  const unit = size(range!.unit);
  const { calculated: _, ...plain } = only!;
  const additive = {
    ...plain,
    ordered: range!.perKilogram.times(unit),
    given: given.times(unit),
    ...(calculated ? { calculated: calculated.times(unit) } : {}),
    volume: given.times(unit).over(strength).nearest(graduation),
  };
  return { ...scenario, order: { ...order, weight }, additives: [additive] };
}

/** Calculated, rounded, cut to the cap. */
function doseFor({ perKilogram, round, maximum }: Range, weight: Fraction) {
  const calculated = perKilogram.times(weight);
  const rounded = round ? calculated.nearest(round) : calculated;
  const given = maximum ? rounded.least(maximum) : rounded;
  return { given, ...(round && given.is(rounded) ? { calculated } : {}) };
}

export function weightsOf({ range }: Scenario): Fraction[] {
  const { from, to, step } = range!;
  const list: Fraction[] = [];
  for (let weight = from; weight.against(to) <= 0; weight = weight.plus(step)) list.push(weight);
  return list;
}

export function rangedScenario(seed: number): Scenario {
  for (let attempt = 0; attempt < 50; attempt++) {
    const random = new Random(seed * 50 + attempt + 1_000_003);
    try {
      return drafted(random);
    } catch (stopped) {
      if (!(stopped instanceof RangeError)) throw stopped;
    }
  }
  throw new Error(`no range comes of seed ${seed}`);
}

function drafted(random: Random): Scenario {
  const kind = random.pick(kinds.filter(({ units, fact }) => !fact.salt && units[0] !== "mmol"));
  const unit = kind.units[0]!;
  const strength = Fraction.of(random.pick(kind.strengths));
  const [from, to] = random.pick([
    [40, 100],
    [10, 20],
    [50, 70],
    [20, 60],
  ]);
  const step = random.pick(["0.1", "0.5", "1"]);
  // So many mL for the heaviest.
  const perKilogram = strength
    .times(Fraction.of(random.between(20, 50)))
    .over(Fraction.of(to!))
    .toFigures(2);
  const most = perKilogram.times(Fraction.of(to!));
  const range: Range = {
    from: Fraction.of(from!),
    to: Fraction.of(to!),
    step: Fraction.of(step),
    perKilogram,
    unit,
    ...(random.chance(0.4) ? { round: strength.times(Fraction.of(random.pick(["0.5", "1", "2"]))) } : {}),
    ...(random.chance(0.3) ? { maximum: most.times(Fraction.of(random.pick(["0.8", "0.9"]))).toFigures(2) } : {}),
  };
  const { fact } = kind;
  const draft: Scenario = {
    asOf: "2026-11-25",
    site: {
      edition: "wisconsin-phar-15",
      category: 2,
      expiryAhead: 30,
      severity: [],
      neverSilenced: [],
      ...(random.chance(0.3) ? { pumpStep: Fraction.of(random.pick(["1", "5", "10"])) } : {}),
    },
    drugs: [
      {
        fact,
        limits: [],
        stable: [],
        compatible: [saline.name],
        incompatible: [],
        addedBefore: [],
        together: [],
        materials: [],
        light: "not-sensitive",
      },
    ],
    fluid: saline,
    bag: {
      name: "bag-of-fluid",
      container: "bag",
      fluid: saline.name,
      fill: mL(random.pick([50, 80, 100, 250, 500])),
      capacity: mL(1000),
      madeOf: "polyolefin",
    },
    additives: [
      {
        drug: fact.name,
        product: {
          name: `${fact.name}-product`,
          container: "vial",
          drug: fact.name,
          strength: figure(strength, `${unit}/mL`),
          fill: mL(100),
          osmolarity: random.between(200, 900),
          doses: "single",
        },
        volume: Fraction.one,
        unit: `${unit}/kg`,
      },
    ],
    order: {
      access: random.pick(["peripheral", "central"] as const),
      use: "infusion",
      ...(random.chance(0.6)
        ? {
            over: random.pick([
              { number: 90, unit: "min" },
              { number: 4, unit: "h" },
            ] as const),
          }
        : { at: { number: Fraction.of(random.pick([10, 25, 40])), unit: "mL/h" } }),
    },
    covered: false,
    useWithin: [{ time: { number: 24, unit: "h" }, at: "room-temperature" }],
    tested: false,
    lots: new Map([
      [`${fact.name}-product`, [{ id: "KQ-1", expires: "2028-04" }]],
      ["bag-of-fluid", [{ id: "KQ-2", expires: "2028-04" }]],
    ]),
    deviations: [],
    range,
  };
  // The figures of the limits lie beside what one of the weights comes to.
  const weight = random.pick(weightsOf(draft));
  const there = atWeight(draft, weight);
  limitRows(random, there, draft.drugs[0]!, kind, true);
  const concentration = measured(there, fact.name, { kind: "concentration", unit: `${unit}/mL` })!;
  draft.drugs[0]!.stable.push({
    in: saline.name,
    at: "room-temperature",
    ...(random.chance(0.5) ? { concentration: { high: edge(random, concentration), unit: `${unit}/mL` } } : {}),
    madeOf: "any",
    light: "any",
    countedFrom: "mixing",
    for: { number: 24, unit: "h" },
  });
  if (random.chance(0.3)) draft.site.osmolarity = Number(near(Fraction.of(random.between(300, 420)), "1").n);
  return draft;
}
