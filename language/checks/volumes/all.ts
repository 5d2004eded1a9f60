/** Checks of volumes, doses and concentrations against what the steps really do. */
import type { AnyCheck } from "../check.ts";
import { additiveOverShare } from "./additive-over-share.ts";
import { claimDiffers } from "./claim-differs.ts";
import { concentrationDiffers } from "./concentration-differs.ts";
import { containerOverfilled } from "./container-overfilled.ts";
import { diluentVolumeDiffers } from "./diluent-volume-differs.ts";
import { displacementIgnored } from "./displacement-ignored.ts";
import { displacementNegative } from "./displacement-negative.ts";
import { doseNotDelivered } from "./dose-not-delivered.ts";
import { drawBeyondContent } from "./draw-beyond-content.ts";
import { drawBeyondSyringe } from "./draw-beyond-syringe.ts";
import { figureNotKnown } from "./figure-not-known.ts";
import { givesAndDisplacementDiffer } from "./gives-and-displacement-differ.ts";
import { liquidLeftInSyringe } from "./liquid-left-in-syringe.ts";
import { methodNotFollowed } from "./method-not-followed.ts";
import { notEachOf } from "./not-each-of.ts";
import { notOnGraduation } from "./not-on-graduation.ts";
import { nothingToPush } from "./nothing-to-push.ts";
import { pushBeyondContent } from "./push-beyond-content.ts";
import { reconstitutedNoPowder } from "./reconstituted-no-powder.ts";
import { reconstitutedOtherwise } from "./reconstituted-otherwise.ts";
import { reconstitutedWithOtherFluid } from "./reconstituted-with-other-fluid.ts";
import { smallDoseDeadSpaceNotSaid } from "./small-dose-dead-space-not-said.ts";
import { syringeTooFull } from "./syringe-too-full.ts";
import { tooFewContainers } from "./too-few-containers.ts";
import { tooSmallToMeasure } from "./too-small-to-measure.ts";
import { volumeBelowZero } from "./volume-below-zero.ts";
import { wholeContentDrawn } from "./whole-content-drawn.ts";

export const volumeChecks: readonly AnyCheck[] = [
  additiveOverShare,
  claimDiffers,
  concentrationDiffers,
  containerOverfilled,
  diluentVolumeDiffers,
  displacementIgnored,
  displacementNegative,
  doseNotDelivered,
  drawBeyondContent,
  drawBeyondSyringe,
  figureNotKnown,
  givesAndDisplacementDiffer,
  liquidLeftInSyringe,
  methodNotFollowed,
  notEachOf,
  notOnGraduation,
  nothingToPush,
  pushBeyondContent,
  reconstitutedNoPowder,
  reconstitutedOtherwise,
  reconstitutedWithOtherFluid,
  smallDoseDeadSpaceNotSaid,
  syringeTooFull,
  tooFewContainers,
  tooSmallToMeasure,
  volumeBelowZero,
  wholeContentDrawn,
];
