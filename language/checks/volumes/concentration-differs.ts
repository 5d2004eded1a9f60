import { isRefusal, kindOf, strengthOf } from "../../bench/amounts.ts";
import { rowsAt } from "../../bench/order-rows.ts";
import { happened, type Run } from "../../bench/run.ts";
import { ionHeld } from "../../bench/targets.ts";
import type { Vessel } from "../../bench/things.ts";
import { vesselKey } from "../../bench/vessels.ts";
import type { MeasureSlot } from "../../model/slots.ts";
import { Exact } from "../../quantities/exact.ts";
import { inBase, showQuantity, volumeOf } from "../../quantities/quantity.ts";
import { agreesAsWritten } from "../../quantities/rounding.ts";
import { agrees } from "../agreement.ts";
import { recipeCheck } from "../check.ts";
import { lostByMarks } from "../claims.ts";
import { isTold } from "../consequences.ts";
import { example } from "../example.ts";
import { factorBetween } from "../factor-between.ts";
import { labelsBehind } from "../figures-behind.ts";
import { missingVolumes } from "../missing-doses.ts";
import { finalOrEach, strength } from "../showing.ts";
import { isDoseSlip, isRanged, slipsOf } from "../slips.ts";
import { otherFormText } from "./held-after.ts";
import { orderedAmount, orderedVolume } from "./ordered.ts";

export const concentrationDiffers = recipeCheck({
  name: "concentration-differs",
  family: "volumes",
  severity: "error",
  title: "The stated concentration is not what the steps give",
  why: "Rates and doses are set by the figure on the label.",
  source:
    "Master formulation and compounding records (study page restating USP <795> and <797> 2023, February 2024, list of the master record): the strength equals the result of the steps",
  rows: [
    "record-elements mfr-name-strength-form",
    "limits nominal-vs-true-vaso",
    "technique-rules powder-displacement",
  ],
  bad: example(["    concentration  37.04 mg/mL", "    concentration  40 mg/mL"]),
  good: example(),
  *find(context) {
    const { recipe, run } = context;
    if (run.unknown) return;
    for (const preparation of recipe.preparations) {
      const vessel = run.finals.find((v) => v.name === preparation.name.name);
      if (!vessel?.liquid.volume.isPositive()) continue;
      for (const { slots } of rowsAt(preparation.facts.all("concentration"), run)) {
        const drug = slots.drug?.name ?? meantIn(vessel, run);
        const stated = slots.concentration;
        if (!stated.quantity) continue;
        if (slots.ion) {
          const found = ofIon(stated, slots.ion.name, vessel, run);
          if (found && !slipsOf(run).reaches(vessel)) yield found;
          continue;
        }
        const kind = drug === undefined ? undefined : run.setup.kinds.get(drug);
        const held = drug === undefined ? undefined : vessel.liquid.amounts.get(drug);
        if (!kind || !held || drug === undefined) {
          // Nothing of the one drug that can be meant is there: the dose is told as missing.
          const meant = drug ?? onlyDrug(run);
          const isNone = meant !== undefined && (vessel.liquid.drugs.length === 0 || meant === slots.drug?.name);
          if (isNone) {
            if (slipsOf(run).reaches(vessel)) continue;
            if (isTold("dose-not-delivered", context) && isLacking(meant, vessel, run)) continue;
            yield {
              at: stated,
              stated: stated.written,
              drug: meant,
              vessel,
              shown: "none",
              factor: "",
              measuresElse: false,
            };
            continue;
          }
          yield {
            at: stated,
            stated: stated.written,
            drug: undefined,
            vessel,
            shown: "",
            factor: "",
            measuresElse: false,
          };
          continue;
        }
        const claimed = strengthOf(
          stated.quantity,
          kind,
          run.setup.drugs.get(drug)?.substance ?? { name: drug, ions: [], salts: [] },
          slots.salt?.name,
        );
        if (isRefusal(claimed)) {
          // A form that the drug does not declare is told as that.
          if (claimed.rule === "form-not-declared") continue;
          // What is no concentration at all is told as a unit in the wrong place.
          if (stated.quantity.unit.dimension.key.split("/").length !== 2) continue;
          const own = strength(held, vessel.liquid.volume, kind);
          yield { at: stated, stated: stated.written, drug, vessel, shown: own, factor: "", measuresElse: true };
          continue;
        }
        const exact = held.over(vessel.liquid.volume);
        const inStatedUnit = exact.over(claimed).times(stated.quantity.value);
        if (claimed.isPositive() && isRoundedFrom(inStatedUnit, stated.quantity.value, stated.decimals)) continue;
        if (slipsOf(run).reaches(vessel) && !isFarOff(claimed, drug, vessel, run)) continue;
        const scale = claimed.isPositive() ? stated.quantity.value.over(claimed) : Exact.zero;
        if (
          calculated(drug, vessel, run).some((c) =>
            isRoundedFrom(c.times(scale), claimed.times(scale), stated.decimals),
          )
        )
          continue;
        if (isTold("method-not-followed", context) && isRightForTheMethod(claimed, held, vessel, run)) continue;
        if (isTold("dose-not-delivered", context) && isRightForTheDose(claimed, drug, vessel, run)) continue;
        if (isTold("final-volume-differs", context) && isRightForTheVolume(claimed, held, vessel, run)) continue;
        const lacking = missingVolumes(run).get(vessel);
        if (lacking && isWithin(claimed, held.over(vessel.liquid.volume.plus(lacking)), run)) continue;
        const counted = slots.salt ? ` as ${slots.salt.name}` : "";
        yield {
          at: stated,
          stated: stated.written + counted,
          drug,
          vessel,
          shown: inBoth(
            showQuantity({ value: inStatedUnit, unit: stated.quantity.unit }) + counted,
            strength(held, vessel.liquid.volume, kind),
          ),
          factor:
            (!slots.salt && otherFormText(inStatedUnit, stated.quantity, drug, run)) || factorBetween(claimed, exact),
          measuresElse: false,
        };
      }
    }
  },
  say: ({ stated, drug, vessel, shown, factor, measuresElse }, { run }) =>
    measuresElse
      ? {
          text: `${finalOrEach(vessel, run)} holds ${shown} of ${drug}; ${stated} measures something else and cannot be laid against it. State the concentration in the unit of the drug's strength.`,
        }
      : drug === undefined
        ? {
            text: `${stated} is stated for ${finalOrEach(vessel, run)}, but it does not say of which drug. Write the drug's name before the figure.`,
          }
        : approximate.test(drug)
          ? {
              text: `\`${drug}\` stands where the name of a drug may stand, and is read as one. Write the figure alone; one that is rounded as spoken is \`nominal-concentration ${stated}\`.`,
            }
          : {
              text: `States ${stated}; the steps give ${shown} of ${drug} in ${finalOrEach(vessel, run)}${factor}. A rounded figure as spoken is a \`nominal-concentration\`. Mend the figure or the steps.`,
              related: labelsBehind(vessel.liquid.stocks, run),
            },
});

const approximate = /^(?:about|approx\w*|around|ca|circa|nearly|roughly)$/;

interface Found {
  at: MeasureSlot;
  stated: string;
  drug: string;
  vessel: Vessel;
  shown: string;
  factor: string;
  measuresElse: boolean;
}

/** `86.3 mmol/L of potassium`, over all that brings it; undefined where it is so. */
function ofIon(stated: MeasureSlot, ion: string, vessel: Vessel, run: Run): Found | undefined {
  const { quantity } = stated;
  const kind = quantity && kindOf(quantity);
  const none = { at: stated, stated: stated.written, drug: ion, vessel, factor: "", measuresElse: false };
  // What is no concentration at all is told as a unit in the wrong place.
  if (!quantity || !kind || quantity.unit.dimension.key.split("/")[1] !== "volume") return undefined;
  const held = ionHeld(vessel, ion, kind, run);
  if (!held) return { ...none, shown: "no known amount" };
  const exact = held.over(vessel.liquid.volume);
  const claimed = inBase(quantity);
  if (!claimed.isPositive()) return { ...none, shown: strength(held, vessel.liquid.volume, kind) };
  const inStatedUnit = exact.over(claimed).times(quantity.value);
  if (isRoundedFrom(inStatedUnit, quantity.value, stated.decimals)) return undefined;
  const shown = showQuantity({ value: inStatedUnit, unit: quantity.unit });
  return { ...none, shown, factor: factorBetween(claimed, exact) };
}

/** What rounding may take from a figure with few digits: 0.17 mg/mL stands for 0.1738 mg/mL, and 1 mg/mL for no 1.4 mg/mL. */
const mostByRounding = Exact.of("0.05");

/** Compared as written: the derived figure, in the unit of the stated one, rounded to its digits. */
function isRoundedFrom(derived: Exact, stated: Exact, decimals: number): boolean {
  if (agrees(derived, stated)) return true;
  return (
    agreesAsWritten(derived, stated, decimals) && derived.minus(stated).abs().isAtMost(stated.times(mostByRounding))
  );
}

/**
 * What the ordered dose gives where a draw lies between two marks and is rounded to one, which is told there: in the volume that comes of
 * the rounding, and in that without it. None where every draw is on a mark, or where more is amiss with the dose than a mark.
 */
function calculated(drug: string, vessel: Vessel, run: Run): Exact[] {
  const rounded = happened(run, "not-on-graduation");
  const ordered = rounded.length > 0 ? orderedAmount(drug, vessel, run) : undefined;
  const held = vessel.liquid.amounts.get(drug);
  if (!ordered?.isPositive() || !held) return [];
  const shares = rounded.map(({ data }) => data.asked.minus(data.reading).abs().over(data.asked));
  if (
    held
      .minus(ordered)
      .abs()
      .isAbove(ordered.times(shares.reduce((most, share) => Exact.greatest(most, share))))
  )
    return [];
  const { volume } = vessel.liquid;
  return [volume, volume.plus(lostByMarks(run))].filter((v) => v.isPositive()).map((v) => ordered.over(v));
}

/** The one drug that is in it, or what is ordered where a fluid alone brings it, such as glucose. */
function meantIn(vessel: Vessel, run: Run): string | undefined {
  const { drugs, amounts } = vessel.liquid;
  if (drugs.length > 0) return drugs.length === 1 ? drugs[0] : undefined;
  const ordered = onlyDrug(run);
  return ordered !== undefined && amounts.has(ordered) ? ordered : undefined;
}

/** The drug of an order that names one. */
function onlyDrug({ doses }: Run): string | undefined {
  return new Set(doses.map((d) => d.drug)).size === 1 ? doses[0]!.drug : undefined;
}

/** Whether a dose of it is ordered for this container and none of it is there. */
function isLacking(drug: string, vessel: Vessel, run: Run): boolean {
  const held = vessel.liquid.amounts.get(drug);
  return (!held || held.isZero()) && orderedAmount(drug, vessel, run)?.isPositive() === true;
}

/** The stated figure is what the ordered dose would give in this volume: what is wrong is the dose, which is told as such. */
function isRightForTheDose(claimed: Exact, drug: string, vessel: Vessel, run: Run): boolean {
  const ordered = orderedAmount(drug, vessel, run);
  const held = vessel.liquid.amounts.get(drug) ?? Exact.zero;
  if (!ordered || !held.minus(ordered).abs().isAbove(ordered.times(run.policy.tolerance.dose))) return false;
  const volumes = [vessel.liquid.volume, orderedVolume(run, vessel)].filter((v) => v?.isPositive());
  return volumes.some((volume) => {
    const fitting = ordered.over(volume!);
    return claimed.minus(fitting).abs().isAtMost(fitting.times(run.policy.tolerance.concentration));
  });
}

/**
 * At least double or at most half of what the ordered dose gives in any volume that can be meant, and of what is there: a slip of its own,
 * whatever a wrong step before did. Of an order with a range it is left out for all of it or not at all.
 */
function isFarOff(claimed: Exact, drug: string, vessel: Vessel, run: Run): boolean {
  const ordered = orderedAmount(drug, vessel, run);
  const held = vessel.liquid.amounts.get(drug);
  if (!ordered?.isPositive() || !held || isRanged(run) || isDoseSlip(drug, run)) return false;
  const { volume } = vessel.liquid;
  const fill = volumeOf(vessel.stock?.facts.one("fill")?.slots.fill.quantity);
  const meant = [volume, orderedVolume(run, vessel), fill].flatMap((v) => (v?.isPositive() ? [ordered.over(v)] : []));
  return [...meant, held.over(volume)].every(
    (each) => claimed.isAtLeast(each.times(two)) || claimed.times(two).isAtMost(each),
  );
}

const two = Exact.of(2);

/** The stated figure is what the drug that is there would give in the ordered volume: what is wrong is the volume. */
function isRightForTheVolume(claimed: Exact, held: Exact, vessel: Vessel, run: Run): boolean {
  const ordered = orderedVolume(run, vessel);
  if (!ordered?.isPositive() || agrees(vessel.liquid.volume, ordered)) return false;
  return isWithin(claimed, held.over(ordered), run);
}

function isWithin(claimed: Exact, fitting: Exact, { policy }: Run): boolean {
  return claimed.minus(fitting).abs().isAtMost(fitting.times(policy.tolerance.concentration));
}

/** The stated figure is what the method would give: what is wrong is that nothing was withdrawn before. */
function isRightForTheMethod(claimed: Exact, held: Exact, vessel: Vessel, run: Run): boolean {
  const method = run.recipe.order?.one("method")?.slots.method.choice;
  if (!method?.startsWith("withdraw-first") || run.withdrawn.has(vesselKey(vessel))) return false;
  const into = run.steps.flatMap((s) => s.movements.filter((m) => m.to === vessel && m.how === "push"));
  const volume = into.reduce((rest, { moved }) => rest.minus(moved), vessel.liquid.volume);
  if (!volume.isPositive()) return false;
  return isWithin(claimed, held.over(volume), run);
}

/** In the unit of the statement, so that the two can be compared, and in the usual one. */
function inBoth(asStated: string, usual: string): string {
  return asStated === usual ? usual : `${asStated} (${usual})`;
}
