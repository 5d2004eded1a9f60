import { happened, type Run } from "../../bench/run.ts";
import { type Claim, claimText, type StepRun } from "../../bench/step-run.ts";
import { Exact } from "../../quantities/exact.ts";
import type { Quantity } from "../../quantities/quantity.ts";
import { agrees } from "../agreement.ts";
import { recipeCheck } from "../check.ts";
import { isTold } from "../consequences.ts";
import { replaceText } from "../edits.ts";
import { example } from "../example.ts";
import { labelsBehind } from "../figures-behind.ts";
import { slipsOf } from "../slips.ts";
import { agreement, derivedLike, leftBehind, otherFormText, shownLike } from "./held-after.ts";
import { orderedVolume } from "./ordered.ts";

const twoDraws = "    draw 4 g from mag into syringe  = 8 mL\n";

export const heldAfterStepDiffers = recipeCheck({
  name: "held-after-step-differs",
  family: "volumes",
  severity: "error",
  title: "What a step is said to give or to leave is not what the container then holds",
  why: "The stated figure is the second check of a dilution; one of the two is wrong.",
  source:
    "Master formulation and compounding records (study page restating USP <795> and <797> 2023, February 2024, list of the master record): quantities and strength are recomputed",
  rows: ["record-elements mfr-calculations"],
  bad: example(["    inject syringe into bag\n", "    inject syringe into bag  giving 40 mg/mL\n"]),
  good: example(
    [twoDraws, "    draw 4 g from mag into syringe  = 8 mL  leaving 2 mL\n"],
    ["    inject syringe into bag\n", "    inject syringe into bag  giving 37.04 mg/mL\n"],
  ),
  *find({ runs }) {
    for (const run of runs) {
      // What more or less overfill changes is no fault of a figure that speaks of the label.
      if (run.unknown || run.overfill !== "label") continue;
      for (const step of run.steps) {
        if (step.skipped || isDoseMissing(step, run) || isNotMadeUp(step, run)) continue;
        const found = step.claims.flatMap((claim) => [...judged(claim, step, run)]);
        if (found.length === 0) continue;
        // What a wrong step made gives another figure for no fault of this one; a wrong volume is told as that.
        const { follows, wrong } = slipsOf(run);
        const fault = wrong.get(step);
        if (!follows(step) && fault !== "volume" && fault !== "powder") yield* found;
      }
    }
  },
  say({ number, kind, written, value, stated, as, why, verdict, otherForm, behind }) {
    const shown = value && shownLike(value, stated, as);
    const said = `Step ${number} is said to ${kind === "giving" ? "give" : "leave"} ${written}`;
    if (verdict === "too-coarse" && value && isNear(value, stated))
      return { text: `${said}; the figure is ${shown}. Write three digits at least, or the exact figure.` };
    if (shown === undefined)
      return {
        text: `${said}, but that cannot be derived: ${why}. Write the drug in front of the figure where there are several, or take it out.`,
      };
    return {
      text: `${said}; ${kind === "giving" ? "it gives" : "what is left is"} ${shown}${otherForm}. Find out which is wrong and mend it.`,
      related: behind,
    };
  },
  fixes({ from, value, stated }) {
    if (!value) return [];
    const shown = shownLike(value, stated);
    return [{ title: `State ${shown}`, edits: [replaceText(from, shown)] }];
  },
});

/** Nothing of what is ordered is in the finished container, which is told as a dose that is missing. */
function isDoseMissing(step: StepRun, run: Run): boolean {
  const { result } = step;
  if (!result || !run.finals.includes(result) || step.after.get(result)?.drugs.length !== 0) return false;
  return run.doses.length > 0 && result.liquid.drugs.length === 0 && isTold("dose-not-delivered", run);
}

/** It makes up to less than is there already, which is told: nothing was done that could give the strength. */
function isNotMadeUp(step: StepRun, run: Run): boolean {
  return isTold("volume-below-zero", run) && happened(run, "volume-below-zero").some((h) => h.step === step);
}

/** So near that the missing digits are what is wrong with the figure. */
function isNear(value: Exact, stated: Quantity): boolean {
  return value.minus(stated.value).abs().times(Exact.of(20)).isAtMost(stated.value.abs());
}

function* judged(claim: Claim, step: StepRun, run: Run) {
  if (claim.kind === "moves" || !claim.from.quantity) return;
  const stated: Quantity = claim.from.quantity;
  const { from, as, drug } = claim;
  const base = { at: claim.spot, number: step.number, kind: claim.kind, written: claimText(claim), from, as };
  const liquid = claim.kind === "leaving" ? leftBehind(step) : step.result && step.after.get(step.result);
  if (!liquid) {
    yield {
      ...base,
      verdict: "unknown" as const,
      value: undefined,
      stated,
      why: "the step fills no container and takes from none",
      otherForm: "",
      behind: [],
    };
    return;
  }
  const { value, why } = derivedLike(stated, liquid, run, drug?.name, as?.name);
  if (value && isRightForTheVolume(value, stated, step, run)) return;
  const verdict = value ? agreement(value, stated, from.decimals) : "unknown";
  if (verdict === "agrees") return;
  const of = drug?.name ?? (liquid.drugs.length === 1 ? liquid.drugs[0] : undefined);
  const otherForm = value && !as ? otherFormText(value, stated, of, run) : "";
  yield { ...base, verdict, value, stated, why, otherForm, behind: labelsBehind(liquid.stocks, run, of) };
}

/** A strength that the liquid would have in the ordered volume: what is wrong is the volume, which is told. */
function isRightForTheVolume(value: Exact, stated: Quantity, step: StepRun, run: Run): boolean {
  const { result } = step;
  const ordered = result && orderedVolume(run, result);
  if (!result || !run.finalNames.has(result.name) || !ordered?.isPositive()) return false;
  if (!isTold("final-volume-differs", run) || !stated.unit.dimension.key.endsWith("/volume")) return false;
  const now = step.after.get(result)?.volume;
  return now !== undefined && !agrees(now, ordered) && agrees(value.times(now).over(ordered), stated.value);
}
