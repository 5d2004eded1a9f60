/** Checks of volumes, doses and concentrations against what the steps really do. */
import type { AnyCheck } from "../check.ts";
import { additiveNotOrderedHere } from "./additive-not-ordered-here.ts";
import { additiveOverShare } from "./additive-over-share.ts";
import { amountNotAsOrdered } from "./amount-not-as-ordered.ts";
import { batchCountDiffers } from "./batch-count-differs.ts";
import { batchCountNotOrdered } from "./batch-count-not-ordered.ts";
import { capacityNotStated } from "./capacity-not-stated.ts";
import { claimDiffers } from "./claim-differs.ts";
import { concentrationDiffers } from "./concentration-differs.ts";
import { containerOverfilled } from "./container-overfilled.ts";
import { containersLeftOver } from "./containers-left-over.ts";
import { diluentNotDelivered } from "./diluent-not-delivered.ts";
import { diluentVolumeDiffers } from "./diluent-volume-differs.ts";
import { displacementIgnored } from "./displacement-ignored.ts";
import { displacementNegative } from "./displacement-negative.ts";
import { doseAndConcentrationOrdered } from "./dose-and-concentration-ordered.ts";
import { doseCanMiss } from "./dose-can-miss.ts";
import { doseNotDelivered } from "./dose-not-delivered.ts";
import { dosePerTimeNotCompared } from "./dose-per-time-not-compared.ts";
import { doseRestsOnOverfill } from "./dose-rests-on-overfill.ts";
import { drawBeyondContent } from "./draw-beyond-content.ts";
import { drawBeyondSyringe } from "./draw-beyond-syringe.ts";
import { exampleDiffers } from "./example-differs.ts";
import { exampleFindingDiffers } from "./example-finding-differs.ts";
import { exampleOutsideOrder } from "./example-outside-order.ts";
import { exampleWithoutExpectation } from "./example-without-expectation.ts";
import { figureNotKnown } from "./figure-not-known.ts";
import { finalVolumeDiffers } from "./final-volume-differs.ts";
import { finishedContainerNotOrdered } from "./finished-container-not-ordered.ts";
import { fluidNotOrdered } from "./fluid-not-ordered.ts";
import { givesAndDisplacementDiffer } from "./gives-and-displacement-differ.ts";
import { heldAfterStepDiffers } from "./held-after-step-differs.ts";
import { intermediateStrengthDiffers } from "./intermediate-strength-differs.ts";
import { lineVolumeNotSaid } from "./line-volume-not-said.ts";
import { liquidLeftInSyringe } from "./liquid-left-in-syringe.ts";
import { lumenNotFilled } from "./lumen-not-filled.ts";
import { manyContainers } from "./many-containers.ts";
import { methodNotFollowed } from "./method-not-followed.ts";
import { nominalConcentrationDiffers } from "./nominal-concentration-differs.ts";
import { notEachOf } from "./not-each-of.ts";
import { notOnGraduation } from "./not-on-graduation.ts";
import { nothingToPush } from "./nothing-to-push.ts";
import { overageDiffers } from "./overage-differs.ts";
import { overfillNotStated } from "./overfill-not-stated.ts";
import { pushBeyondContent } from "./push-beyond-content.ts";
import { reconstitutedNoPowder } from "./reconstituted-no-powder.ts";
import { reconstitutedOtherwise } from "./reconstituted-otherwise.ts";
import { reconstitutedWithOtherFluid } from "./reconstituted-with-other-fluid.ts";
import { smallDoseDeadSpaceNotSaid } from "./small-dose-dead-space-not-said.ts";
import { statedVolumeDiffers } from "./stated-volume-differs.ts";
import { syringeTooFull } from "./syringe-too-full.ts";
import { targetNotMet } from "./target-not-met.ts";
import { tooFewContainers } from "./too-few-containers.ts";
import { tooSmallToMeasure } from "./too-small-to-measure.ts";
import { volumeBelowZero } from "./volume-below-zero.ts";
import { wholeContentDrawn } from "./whole-content-drawn.ts";

export const volumeChecks: readonly AnyCheck[] = [
  additiveNotOrderedHere,
  additiveOverShare,
  amountNotAsOrdered,
  batchCountDiffers,
  batchCountNotOrdered,
  claimDiffers,
  concentrationDiffers,
  containerOverfilled,
  containersLeftOver,
  manyContainers,
  diluentNotDelivered,
  diluentVolumeDiffers,
  displacementIgnored,
  displacementNegative,
  doseAndConcentrationOrdered,
  doseNotDelivered,
  doseRestsOnOverfill,
  dosePerTimeNotCompared,
  drawBeyondContent,
  drawBeyondSyringe,
  exampleDiffers,
  exampleFindingDiffers,
  exampleOutsideOrder,
  exampleWithoutExpectation,
  figureNotKnown,
  finalVolumeDiffers,
  finishedContainerNotOrdered,
  fluidNotOrdered,
  givesAndDisplacementDiffer,
  heldAfterStepDiffers,
  intermediateStrengthDiffers,
  lineVolumeNotSaid,
  liquidLeftInSyringe,
  lumenNotFilled,
  methodNotFollowed,
  nominalConcentrationDiffers,
  notEachOf,
  overfillNotStated,
  notOnGraduation,
  nothingToPush,
  overageDiffers,
  pushBeyondContent,
  reconstitutedNoPowder,
  reconstitutedOtherwise,
  reconstitutedWithOtherFluid,
  smallDoseDeadSpaceNotSaid,
  statedVolumeDiffers,
  syringeTooFull,
  targetNotMet,
  tooFewContainers,
  tooSmallToMeasure,
  volumeBelowZero,
  wholeContentDrawn,
  doseCanMiss,
  capacityNotStated,
];
