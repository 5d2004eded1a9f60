/**
 * How a published problem is put to the language's own engine: by its shape a recipe that is run, or an expression over quantities.
 * The rows stand in tests/reference/practice; each names its source.
 */
import { expect } from "vitest";
import { givingRate } from "../../language/bench/rates.ts";
import { solutionOf } from "../../language/bench/solution.ts";
import { defaultPolicy } from "../../language/model/policy.ts";
import { alligate } from "../../language/quantities/alligation.ts";
import { Exact } from "../../language/quantities/exact.ts";
import { minus, over, type Quantity, times } from "../../language/quantities/quantity.ts";
import { doseRate, dripRate, dripToPump, wholeDrops } from "../../language/quantities/rates.ts";
import { ratioStrength } from "../../language/quantities/ratio.ts";
import { findUnit } from "../../language/quantities/unit.ts";
import { amountIn, concentrationIn, movedBy, type Parts, run, vessel } from "../worked/recipe.ts";
import { inUnit, known, measure } from "../worked/rows.ts";
import { drawn, liquidStock } from "../worked/shapes/drawing.ts";
import { diluted, madeUp } from "../worked/shapes/mixing.ts";
import { dissolved, written } from "../worked/shapes/powder.ts";

export interface Problem {
  id: string;
  by: string;
  formula?: string;
  ions?: string[];
  given: string[];
  answer: string;
  to?: string;
  source: string;
  differs?: { engine: string; why: string };
}

/** Chemistry of the row as facts of the drug. */
const chemistry = ({ formula, ions = [] }: Problem): string =>
  formula ? [`formula  "${formula}"`, ...ions.map((ion) => `ion  ${ion}`)].join("\n  ") : "";

const percent = (figure: string) => measure(`${figure} % w/v`);

function bag(amount: string, volume: string, order: string, more: Partial<Parts> = {}) {
  return run({
    stock: liquidStock(`1000000 ${amount.slice(amount.indexOf(" ") + 1)}/mL`),
    order: `dose  ${amount} per flask\n    ${order}`,
    steps: `draw dose from source into syringe\n    inject syringe into flask\n    make up flask to ${volume} with tank using spare`,
    ...more,
  });
}

function rateOf(amount: string, volume: string, order: string): Quantity {
  const result = bag(amount, volume, order);
  return givingRate(result, vessel(result, "flask"), defaultPolicy())!.rate;
}

/** The solution of the finished flask, all of it the stock. */
function solution(row: Problem, strength: string, volume: string) {
  const steps = `draw ${volume} from source into syringe\n    inject syringe into flask`;
  const result = run({ drug: chemistry(row), stock: liquidStock(strength), steps });
  return solutionOf(result, vessel(result, "flask"))!;
}

export const engine: Readonly<Record<string, (row: Problem, ...given: string[]) => Quantity>> = {
  draw: (_, strength, amount) => movedBy(drawn(strength!, "dose", { order: `dose  ${amount} per syringe` }), 1),
  drawKCl: (_, strength, amount) =>
    movedBy(drawn(strength!, `${amount} of potassium`, { drug: 'formula  "KCl"\n  ion  potassium charge 1' }), 1),
  holds: (_, strength, volume) => amountIn(drawn(strength!, volume!), "syringe"),
  byWeight: (_, dose, weight) =>
    amountIn(drawn("1 g/mL", "dose", { order: `weight  ${weight}\n    dose  ${dose} per syringe` }), "syringe"),
  byWeightVolume: (_, strength, dose, weight) =>
    movedBy(drawn(strength!, "dose", { order: `weight  ${weight}\n    dose  ${dose} per syringe` }), 1),
  bySurface: (_, dose, surface) =>
    amountIn(drawn("1 g/mL", "dose", { order: `body-surface  ${surface}\n    dose  ${dose} per syringe` }), "syringe"),
  diluted: (_, strength, volume, diluent) => concentrationIn(diluted(strength!, volume!, diluent!), "flask"),
  stockFor: (_, strength, wanted, volume) =>
    movedBy(drawn(strength!, written(times(measure(wanted!), measure(volume!)))), 1),
  madeUp: (_, strength, volume, to) => concentrationIn(madeUp(strength!, volume!, to!), "flask"),
  amountIn: (_, amount, volume) => concentrationIn(bag(amount!, volume!, ""), "flask"),
  ratio: (_, ratio) => ratioStrength(ratio!, "w/v")!,
  alligate: (_, high, low, wanted, total) =>
    known(alligate(percent(high!), percent(low!), percent(wanted!), measure(total!))).high,
  dissolved: (_, content, displacement, diluent) =>
    concentrationIn(dissolved(content!, `displacement  ${displacement}`, diluent!), "source"),
  diluentFor: (_, content, wanted, displacement) => {
    const diluent = known(minus(over(measure(content!), measure(wanted!)), measure(displacement!)));
    const vial = dissolved(content!, `displacement  ${displacement}`, written(inUnit(diluent, "mL")));
    const unit = wanted!.slice(wanted!.indexOf(" ") + 1);
    expect(inUnit(concentrationIn(vial, "source"), unit).value.equals(measure(wanted!).value)).toBe(true);
    return diluent;
  },
  labelDose: (_, content, diluent, gives, dose) =>
    movedBy(
      dissolved(
        content!,
        `reconstitute {\n    with  ${diluent} of vehicle\n    gives  ${gives}\n    withdrawable  1000 mL\n  }`,
        diluent!,
        { order: `dose  ${dose} per syringe`, steps: "draw dose from source into syringe" },
      ),
      3,
    ),
  pump: (_, rate, amount, volume, weight) =>
    rateOf(amount!, volume!, `infuse-at  ${rate}${weight ? `\n    weight  ${weight}` : ""}`),
  back: (_, rate, amount, volume, unit) =>
    known(doseRate(measure(rate!), concentrationIn(bag(amount!, volume!, ""), "flask"), findUnit(unit!).unit!)),
  amountOver: (_, rate, time) => times(measure(rate!), measure(time!)),
  over: (_, volume, time) => rateOf("1 g", volume!, `infuse-over  ${time}`),
  drops: (_, volume, time, factor) => {
    const result = bag("1 g", volume!, `infuse-over  ${time}`, {
      more: `device drip-set {\n  kind  tubing\n  drop-factor  ${factor}\n}`,
      materials: "set  drip-set",
    });
    const { drops } = givingRate(result, vessel(result, "flask"), defaultPolicy())!;
    const alone = known(dripRate(measure(volume!), measure(time!), measure(factor!)));
    expect(wholeDrops(alone).value.equals(drops!.counted.value)).toBe(true);
    return drops!.counted;
  },
  dropsBack: (_, drops, factor) => known(dripToPump(measure(drops!), measure(factor!))),
  /** So much per kg of body weight, made up to a volume: the rate of giving, as a dose rate per kg. */
  perKgMix: (_, amount, volume, weight, rate, unit) => {
    const order = `weight  ${weight}\n    dose  ${amount} per flask`;
    const steps = `draw dose from source into syringe\n    inject syringe into flask\n    make up flask to ${volume} with tank using spare`;
    const stock = liquidStock(`1000000 ${amount!.slice(amount!.indexOf(" ") + 1, amount!.indexOf("/"))}/mL`);
    const strength = concentrationIn(run({ stock, order, steps }), "flask");
    return known(doseRate(measure(rate!), strength, findUnit(unit!).unit!, measure(weight!)));
  },
  /** The dose by weight, at most or at least what the order bounds it to. */
  bounded: (_, strength, dose, weight, bound) =>
    movedBy(drawn(strength!, "dose", { order: `weight  ${weight}\n    dose  ${dose} per syringe\n    ${bound}` }), 1),
  /** Two strengths of one drug poured together. */
  together: (_, strength, volume, other, otherVolume) =>
    concentrationIn(
      run({
        stock: liquidStock(strength!),
        more: `stock second-strength {\n  drug  remedy\n  ${liquidStock(other!)}\n}`,
        materials: "other  second-strength",
        steps: `draw ${volume} from source into syringe\n    inject syringe into flask\n    draw ${otherVolume} from other into spare\n    inject spare into flask`,
      }),
      "flask",
    ),
  /** What runs in at a rate for a time, of a solution of this strength. */
  ranIn: (_, rate, time, strength) => times(times(measure(rate!), measure(time!)), measure(strength!)),
  /** What a rate of a mixture gives per kg of body weight. */
  gir: (_, rate, amount, volume, weight, unit) =>
    known(
      doseRate(
        measure(rate!),
        concentrationIn(bag(amount!, volume!, ""), "flask"),
        findUnit(unit!).unit!,
        measure(weight!),
      ),
    ),
  /** The dose that follows from a target AUC and the clearance. */
  byAuc: (_, target, clearance) =>
    amountIn(
      run({
        stock: liquidStock("1 g/mL"),
        drug: "dose-by-auc  calvert",
        order: `clearance  ${clearance}\n    dose  ${target} per syringe`,
        steps: "draw dose from source into syringe",
      }),
      "syringe",
    ),
  /** A dose rate of a solution of this strength as a volume in a time. */
  volumeRate: (_, rate, strength) => over(measure(rate!), measure(strength!)),
  /** How long a volume lasts at a rate. */
  lasts: (_, volume, rate) => over(measure(volume!), measure(rate!)),
  ion: (row, strength, volume, ion, unit) => {
    const found = solution(row, strength!, volume!).ions.find((i) => i.ion === ion)!;
    return { value: (unit === "mEq" ? found.mEq : found.mmol)!, unit: findUnit(unit!).unit! };
  },
  ionStrength: (row, strength, ion, unit) => {
    const steps = `draw 1 mL from source into syringe`;
    const per = strength!.slice(0, strength!.indexOf("/"));
    const stock = liquidStock("1 g/mL");
    const result = run({ drug: chemistry(row), stock, steps: `draw ${per} of ${ion} from source into syringe` });
    expect(run({ drug: chemistry(row), stock, steps }).unknown).toBe(false);
    return inUnit(over(amountIn(result, "syringe"), measure("1 mL")), unit!);
  },
  osmolarity: (row, strength) => {
    const found = solution(row, strength!, "1 L");
    return { value: found.osmolarity!.least.times(Exact.of(1000)), unit: findUnit("mOsm/L").unit! };
  },
  grams: (row, amount) =>
    amountIn(
      run({
        drug: chemistry(row),
        stock: liquidStock("1 g/mL"),
        steps: `draw ${amount} from source into syringe`,
      }),
      "syringe",
    ),
};

/** Within the half of the step to which the source rounds, half up; exact where it does not round. */
export function agrees(found: Quantity, printed: string, to: string | undefined): boolean {
  const wanted = measure(printed);
  const value = inUnit(found, wanted.unit.spelling).value;
  if (to?.endsWith("%")) {
    const share = value.over(wanted.value).minus(Exact.one).abs();
    return share.isAtMost(Exact.of(to.replace(/ ?%/, "")).over(Exact.of(100)));
  }
  return (to ? value.toNearest(Exact.of(to)) : value).equals(wanted.value);
}
