import { amountOf, baseShare, isRefusal, kindOf } from "../../bench/amounts.ts";
import type { AmountKind } from "../../bench/liquid.ts";
import type { OrderedDose } from "../../bench/order-rows.ts";
import { happened, type Run } from "../../bench/run.ts";
import { shortened } from "../../bench/spoken.ts";
import { thingOrEach, type Vessel } from "../../bench/things.ts";
import { Exact } from "../../quantities/exact.ts";
import { type Quantity, showQuantity } from "../../quantities/quantity.ts";
import type { Substance } from "../../quantities/substance.ts";
import { agrees } from "../agreement.ts";
import { recipeCheck } from "../check.ts";
import { followsSlip, isTold } from "../consequences.ts";
import { example } from "../example.ts";
import { howFarOff } from "../factor-between.ts";
import { type Behind, drawsBehind, labelsOf } from "../figures-behind.ts";
import { amount } from "../showing.ts";
import { slipsOf } from "../slips.ts";
import { isRoundedToNothing } from "../units/dose-rounded-to-nothing.ts";
import { containerShare } from "./container-share.ts";
import { orderedVolume } from "./ordered.ts";

/** A finished container, or all alike, with what it should hold and holds. */
interface Missed {
  where: string;
  wanted: Exact;
  found: Exact;
  /** It holds what is ordered for the whole time, though it is given in another. */
  isWhole: boolean;
  /** It comes with the drug in it. */
  isReadyMade: boolean;
  /** What the labels say of the drug that is there. */
  behind: readonly Behind[];
}

export const doseNotDelivered = recipeCheck({
  name: "dose-not-delivered",
  family: "volumes",
  severity: "error",
  title: "The steps do not bring the ordered dose into the container",
  why: "The patient gets another dose than ordered.",
  source:
    "site tolerance; finished content within 90 to 110 percent is the wider public standard (oxytocin injection monograph, USP 35)",
  rows: ["limits content-90-110"],
  bad: example(
    ["    dose            4 g per bag", "    dose            5 g per bag"],
    ["magnesium-4g {", "magnesium-5g {"],
    ["Magnesium sulfate 4 g", "Magnesium sulfate 5 g"],
  ),
  good: example(),
  *find({ runs, policy }) {
    const byLabel = new Set<number>();
    for (const run of runs) {
      if (run.unknown) continue;
      for (const dose of run.doses) {
        if (!dose.given || isRoundedToNothing(dose) || byLabel.has(dose.start)) continue;
        const substance = run.setup.drugs.get(dose.drug)?.substance;
        // Where its strength cannot be read it is on the tray all the same, and no step brings it in: else nothing would be judged.
        const kind = run.setup.kinds.get(dose.drug) ?? (substance ? "mass" : undefined);
        if (!kind || !substance) {
          yield {
            at: dose,
            dose,
            where: undefined,
            wanted: undefined,
            found: Exact.zero,
            isWhole: false,
            isReadyMade: false,
            kind: "mass" as const,
            form: undefined,
            overfill: run.overfill,
            behind: [] as readonly Behind[],
            others: [],
          };
          continue;
        }
        const ordered = amountOf(dose.given, kind, substance, dose.as, dose.ion);
        if (isRefusal(ordered)) continue; // said where the units are judged
        const missed: Missed[] = [];
        for (const vessel of run.finals) {
          const share = containerShare(dose, vessel, run);
          if (share === undefined || share === "other") continue; // what cannot be compared is said by a check of its own
          const wanted = ordered.times(share);
          const held = (one: Vessel) => one.liquid.amounts.get(dose.drug) ?? Exact.zero;
          const found = held(vessel);
          const off = found.minus(wanted).abs();
          if (!off.isAbove(wanted.times(policy.tolerance.dose))) continue;
          if (isToldElsewhere(dose, vessel, wanted, found, run)) continue;
          const where = thingOrEach(vessel, run.finals, (other) => held(other).equals(found));
          const isWhole = found.minus(ordered).abs().isAtMost(ordered.times(policy.tolerance.dose));
          const isReadyMade = vessel.stock?.facts.one("drug") !== undefined;
          const behind = [...drawsBehind(dose.drug, run), ...labelsOf(dose.drug, run)];
          missed.push({ where, wanted, found, isWhole, isReadyMade, behind });
        }
        const [first, ...others] = missed.filter(({ where }, i) => missed.findIndex((m) => m.where === where) === i);
        if (!first) continue;
        // What is wrong by the label is not told again of the overfill.
        if (run.overfill === "label") byLabel.add(dose.start);
        const form = otherForm(dose, substance, kind);
        yield { at: dose, dose, ...first, kind, form, overfill: run.overfill, others };
      }
    }
  },
  say({ dose, where, wanted, found, isWhole, isReadyMade, kind, form, overfill, behind, others }) {
    if (!where || !wanted)
      return {
        text: `The order asks for ${dose.measure.written} of ${ofWhat(dose)}, but no material holds it. Add the stock and the steps.`,
      };
    const shown = (value: Exact) => asOrdered(value, wanted, dose.given, kind);
    const counted = form ? ` as ${form.base}` : "";
    const asked = form
      ? `${shown(wanted.over(form.share))} of ${dose.drug} as ${dose.as}, that is ${shown(wanted)}${counted}`
      : `${shown(wanted)} of ${isInOrderedUnit(wanted, dose.given, kind) ? ofWhat(dose) : dose.drug}`;
    const time = "time" in dose.per ? dose.per.time.written : undefined;
    const share =
      time === undefined
        ? asked
        : `${dose.measure.written} per ${time}, which is ${asked} for the time that ${where} is given`;
    const beyond = overfill === "label" ? "" : `with the ${overfill} overfill that is stated, `;
    const measured = isReadyMade
      ? `Draw the dose from it by its volume, and give that.`
      : "Measure what it is diluted in: build it in an empty container, or withdraw the overfill first.";
    const remedy = beyond
      ? measured
      : time !== undefined && isWhole
        ? `If ${where} holds all of it, write \`per\` and the name of the container in place of \`per ${time}\`; else mend the draws.`
        : "Mend the draws or the order.";
    const brought = ({ where, wanted, found }: Pick<Missed, "where" | "wanted" | "found">) =>
      found.isZero() ? `none into ${where}` : `${shown(found)}${counted} into ${where}${howFarOff(wanted, found)}`;
    return {
      text: `The order asks for ${share}; ${beyond}the steps bring ${[{ where, wanted, found }, ...others].map(brought).join(", ")}. ${remedy}`,
      related: behind,
    };
  },
});

/** Where the order counts a salt and the drug is counted as its base, or the other way round, both figures are told. */
function otherForm(
  { as, ion }: OrderedDose,
  substance: Substance,
  kind: AmountKind,
): { share: Exact; base: string } | undefined {
  if (as === undefined || ion !== undefined || kind !== "mass" || as === substance.base) return undefined;
  const share = baseShare(substance, as);
  if (isRefusal(share) || !share.isPositive()) return undefined;
  return { share, base: substance.base ?? substance.name };
}

/** In mmol or mEq where the order counts so; a mass is shown in a handy size. */
function asOrdered(value: Exact, wanted: Exact, given: Quantity | undefined, kind: AmountKind): string {
  if (!isInOrderedUnit(wanted, given, kind)) return amount(value, kind);
  return showQuantity({ value: shortened(given.value.times(value).over(wanted).plain()), unit: given.unit });
}

function isInOrderedUnit(wanted: Exact, given: Quantity | undefined, kind: AmountKind): given is Quantity {
  return given !== undefined && kindOf(given) !== kind && wanted.isPositive();
}

/** A dose of an ion counts the ion, of which a unit of the drug may bring several. */
function ofWhat({ drug, ion }: OrderedDose): string {
  return ion === undefined ? drug : `${ion} from ${drug}`;
}

/** What is wrong is the ordered volume, or a reading that follows from a figure told before. */
function isToldElsewhere(dose: OrderedDose, vessel: Vessel, wanted: Exact, found: Exact, run: Run): boolean {
  const ordered = orderedVolume(run, vessel);
  const { volume } = vessel.liquid;
  if (dose.byConcentration && ordered?.isPositive() && volume.isPositive() && isTold("final-volume-differs", run)) {
    const strength = wanted.over(ordered);
    const isRight = found.over(volume).minus(strength).abs().isAtMost(strength.times(run.policy.tolerance.dose));
    if (isRight && !agrees(volume, ordered) && !slipsOf(run).changesVolumeOf(vessel)) return true;
  }
  return happened(run, "not-on-graduation").some(
    ({ step, data }) =>
      followsSlip(step, run) &&
      data.reading.isPositive() &&
      found.times(data.asked).over(data.reading).minus(wanted).abs().isAtMost(wanted.times(run.policy.tolerance.dose)),
  );
}
