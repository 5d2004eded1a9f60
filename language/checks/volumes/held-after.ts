/** What containers hold after a step, for the figures that an author writes beside it. */
import { amountOf, inForm, isRefusal, strengthOf } from "../../bench/amounts.ts";
import { type Liquid, pour } from "../../bench/liquid.ts";
import type { Run } from "../../bench/run.ts";
import type { StepRun } from "../../bench/step-run.ts";
import type { Vessel } from "../../bench/things.ts";
import type { NameSlot } from "../../model/slots.ts";
import { Exact } from "../../quantities/exact.ts";
import { type Quantity, showQuantity } from "../../quantities/quantity.ts";

export interface DerivedFigure {
  /** In the unit of the stated figure; undefined where it cannot be derived. */
  value: Exact | undefined;
  /** Why not, as half a sentence. */
  why: string;
}

/** Volume, amount or concentration of `liquid`, in the unit of the stated quantity. */
export function derivedLike(stated: Quantity, liquid: Liquid, run: Run, of?: string, as?: string): DerivedFigure {
  const [above, below, more] = stated.unit.dimension.key.split("/");
  if (above === "volume" && below === undefined) return { value: liquid.volume.over(stated.unit.factor), why: "" };
  if (more !== undefined || (below !== undefined && below !== "volume"))
    return { value: undefined, why: `${stated.unit.spelling} measures no content of a container` };
  const drug = of ?? (liquid.drugs.length === 1 ? liquid.drugs[0] : undefined);
  if (drug === undefined) {
    const why =
      liquid.drugs.length === 0
        ? "no drug is in it"
        : `it holds ${liquid.drugs.join(" and ")}, and the figure does not say which is meant`;
    return { value: undefined, why };
  }
  const kind = run.setup.kinds.get(drug);
  const held = liquid.amounts.get(drug);
  if (!kind || !held) return { value: undefined, why: `it holds no known amount of ${drug}` };
  if (below !== undefined && !liquid.volume.isPositive()) return { value: undefined, why: "it is empty" };
  const substance = run.setup.drugs.get(drug)?.substance ?? { name: drug, ions: [], salts: [] };
  const one = { value: Exact.one, unit: stated.unit };
  const unit = below === undefined ? amountOf(one, kind, substance, as) : strengthOf(one, kind, substance, as);
  if (isRefusal(unit)) return { value: undefined, why: unit.reason.replace(/\.$/, "") };
  return { value: (below === undefined ? held : held.over(liquid.volume)).over(unit), why: "" };
}

/**
 * Whether a stated figure is what the derived one rounds to as written, three significant digits being looked at at least, so that
 * 37 mg/mL stands for 37.04 mg/mL and not for 37.4 mg/mL. (37.0 cannot be asked for: a zero behind the point is misread.)
 */
export function agreement(derived: Exact, stated: Quantity, decimals: number): "agrees" | "differs" | "too-coarse" {
  if (derived.equals(stated.value)) return "agrees";
  // Only comparisons, so that a range of orders can be judged as a whole: what rounds to 37.04 lies from 37.035 to below 37.045.
  const digits = stated.value
    .abs()
    .times(Exact.of(10n ** BigInt(decimals)))
    .toText().length;
  if (isWithinHalf(derived, stated.value, decimals + Math.max(0, 3 - digits))) return "agrees";
  return isWithinHalf(derived, stated.value, decimals) ? "too-coarse" : "differs";
}

/** Whether `derived` rounds, half up, to `stated` at so many decimals; negative counts round to tens, hundreds, … */
export function isWithinHalf(derived: Exact, stated: Exact, decimals: number): boolean {
  const half =
    decimals < 0 ? Exact.of(5n * 10n ** BigInt(-decimals - 1)) : Exact.ratio(5n, 10n ** BigInt(decimals + 1));
  return derived.isAtLeast(stated.minus(half)) && derived.isBelow(stated.plus(half));
}

/** Whether the step is said to give another strength, amount or volume than the container then holds. */
export function givingDiffers(step: StepRun, run: Run): boolean {
  return step.claims.some(({ kind, from, as, drug }) => {
    const liquid = kind === "giving" && step.result ? step.after.get(step.result) : undefined;
    if (!liquid || !from.quantity) return false;
    const { value } = derivedLike(from.quantity, liquid, run, drug?.name, as?.name);
    return value !== undefined && agreement(value, from.quantity, from.decimals) === "differs";
  });
}

/** A derived figure in the unit of the stated one, and in the form of the drug that it names: all its digits, or four. */
export function shownLike(value: Exact, stated: Quantity, as?: NameSlot): string {
  return `${showQuantity({ value, unit: stated.unit })}${as ? ` as ${as.name}` : ""}`;
}

/** A figure that names no form and is that of another form of the drug: `, that is 1 mg/mL as morphine-hydrochloride; then say so`; else nothing. */
export function otherFormText(value: Exact, stated: Quantity, drug: string | undefined, run: Run): string {
  const substance = drug === undefined ? undefined : run.setup.drugs.get(drug)?.substance;
  for (const { name } of substance?.salts ?? []) {
    const turned = inForm({ value, unit: stated.unit }, substance!, undefined, name);
    if (!isRefusal(turned) && turned.value.equals(stated.value))
      return `, that is ${showQuantity(turned)} as ${name}; if that is meant, say \`as ${name}\``;
  }
  return "";
}

/** The liquid left in what a step took from; a syringe that only passed it on does not count. Undefined where nothing was taken. */
export function leftBehind(step: StepRun): Liquid | undefined {
  const into = new Set<Vessel | undefined>(step.movements.map((m) => m.to));
  const sources = new Set(step.movements.flatMap((m) => (m.from && !into.has(m.from) ? [m.from] : [])));
  const held = [...sources].flatMap((vessel) => step.after.get(vessel) ?? []);
  if (held.length > 0) return held.reduce(pour);
  return step.result ? step.after.get(step.result) : undefined;
}
