/** The liquids of the bench that a volume of a printed text may be of: what was drawn of a drug, and the finished containers. */
import { amountOf, isRefusal, strengthOf } from "../../bench/amounts.ts";
import type { AmountKind, Liquid } from "../../bench/liquid.ts";
import type { Run } from "../../bench/run.ts";
import { orderedDrugs } from "../../bench/stray-drugs.ts";
import type { Vessel } from "../../bench/things.ts";
import type { Drug } from "../../model/declaration.ts";
import { Exact } from "../../quantities/exact.ts";
import { type Quantity, volumeOf } from "../../quantities/quantity.ts";

/** A liquid of the bench that a portion may be of. */
export interface Source {
  drug: Drug;
  kind: AmountKind;
  /** In one mL, in the base unit of the drug's kind. */
  strength: Exact;
  /** mL that may be spoken of; the first is what the order comes to. */
  volumes: readonly Exact[];
  /** mL of one container of the product. */
  size: Exact | undefined;
  isFinished: boolean;
}

/**
 * Liquids that were drawn, and the finished containers. What goes into an intermediate is more than the dose, so all that was drawn counts.
 * @param nominal volumes in mL by which a finished container may be reckoned too
 */
export function sourcesOf(run: Run, nominal: readonly Exact[] = []): Source[] {
  const drawn = run.steps
    .flatMap(({ movements }) => movements)
    .filter(({ how, from }) => how === "draw" && !(from && run.finals.includes(from)));
  const all = (from: Vessel | undefined) =>
    drawn.reduce((sum, each) => (each.from?.name === from?.name ? sum.plus(each.moved) : sum), Exact.zero);
  return orderedDrugs(run.recipe).flatMap((name) => {
    const kind = run.setup.kinds.get(name);
    const drug = run.setup.drugs.get(name);
    if (!kind || !drug) return [];
    const doses = run.doses.flatMap(({ drug: of, given, as, ion, per }) => {
      const amount =
        of === name && given && !("time" in per) ? amountOf(given, kind, drug.substance, as, ion) : undefined;
      return amount && !isRefusal(amount) ? [amount] : [];
    });
    const held = run.finals.flatMap(({ liquid }) => liquid.amounts.get(name) ?? []);
    const amounts = [...doses, ...held];
    const together = run.makes > 1 ? amounts.map((amount) => amount.times(Exact.of(run.makes))) : [];
    const source = (liquid: Liquid, spoken: Exact, size?: Exact, isFinished = false): Source[] => {
      const { volume } = liquid;
      const amount = liquid.amounts.get(name);
      if (!amount?.isPositive() || !volume.isPositive()) return [];
      const strength = amount.over(volume);
      const needed = [...amounts, ...together].map((each) => each.over(strength));
      return [{ drug, kind, strength, volumes: [...needed, spoken], size, isFinished }];
    };
    return [
      ...drawn.flatMap(({ liquid, from }) => source(liquid, all(from), sizeOf(from))),
      ...run.finals.flatMap(({ liquid }) =>
        [liquid, ...nominal.map((volume) => ({ ...liquid, volume }))].flatMap((each) =>
          source(each, each.volume, undefined, true),
        ),
      ),
    ];
  });
}

function sizeOf(vessel: Vessel | undefined): Exact | undefined {
  return volumeOf(vessel?.stock?.facts.one("fill")?.slots.fill.quantity);
}

/** Strengths of what was drawn of a drug, in the unit of a figure; none where they cannot be counted so. */
export function drawnStrengths(name: string, figure: Quantity, runs: readonly Run[]): Quantity[] {
  return runs.flatMap((run) => {
    if (run.unknown) return [];
    return sourcesOf(run).flatMap(({ drug, kind, strength, isFinished }) => {
      if (isFinished || drug.name.name !== name) return [];
      const one = strengthOf({ value: Exact.one, unit: figure.unit }, kind, drug.substance);
      return isRefusal(one) || !one.isPositive() ? [] : [{ value: strength.over(one), unit: figure.unit }];
    });
  });
}
