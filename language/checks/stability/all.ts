/** Checks of stability: what may meet what, in which container, for how long. */
import type { AnyCheck } from "../check.ts";
import { addedInWrongOrder } from "./added-in-wrong-order.ts";
import { afterOpeningLongerThanKept } from "./after-opening-longer-than-kept.ts";
import { beyondUseNotKnown } from "./beyond-use-not-known.ts";
import { calciumPhosphateKeptTooLong } from "./calcium-phosphate-kept-too-long.ts";
import { calciumPhosphateNotCompared } from "./calcium-phosphate-not-compared.ts";
import { compatibilityNotDeclared } from "./compatibility-not-declared.ts";
import { compatibleAndIncompatible } from "./compatible-and-incompatible.ts";
import { containerMaterialNotStated } from "./container-material-not-stated.ts";
import { containerMaterialUnsuitable } from "./container-material-unsuitable.ts";
import { diluentIncompatible } from "./diluent-incompatible.ts";
import { drugsIncompatible } from "./drugs-incompatible.ts";
import { filterContradictsNature } from "./filter-contradicts-nature.ts";
import { filterForbidden } from "./filter-forbidden.ts";
import { filterRequiredMissing } from "./filter-required-missing.ts";
import { hazardousInHorizontalFlow } from "./hazardous-in-horizontal-flow.ts";
import { immediateUseTooMany } from "./immediate-use-too-many.ts";
import { inLineFilterForbidden } from "./in-line-filter-forbidden.ts";
import { inLineFilterMissing } from "./in-line-filter-missing.ts";
import { inUseLongerThanStability } from "./in-use-longer-than-stability.ts";
import { ionsBeyondSolubility } from "./ions-beyond-solubility.ts";
import { lightProtectionMissing } from "./light-protection-missing.ts";
import { natureContradictsName } from "./nature-contradicts-name.ts";
import { openedTooLong } from "./opened-too-long.ts";
import { phFarApart } from "./ph-far-apart.ts";
import { stabilityNotCovered } from "./stability-not-covered.ts";
import { sterilisingNotShown } from "./sterilising-not-shown.ts";
import { stoodLongerThanStable } from "./stood-longer-than-stable.ts";
import { storageContradictsDrug } from "./storage-contradicts-drug.ts";
import { useWithinLongerThanPolicy } from "./use-within-longer-than-policy.ts";
import { useWithinLongerThanStability } from "./use-within-longer-than-stability.ts";
import { useWithinNotCompared } from "./use-within-not-compared.ts";

export const stabilityChecks: readonly AnyCheck[] = [
  compatibleAndIncompatible,
  diluentIncompatible,
  drugsIncompatible,
  compatibilityNotDeclared,
  addedInWrongOrder,
  ionsBeyondSolubility,
  calciumPhosphateNotCompared,
  calciumPhosphateKeptTooLong,
  phFarApart,
  containerMaterialUnsuitable,
  containerMaterialNotStated,
  stabilityNotCovered,
  useWithinLongerThanStability,
  inUseLongerThanStability,
  stoodLongerThanStable,
  openedTooLong,
  useWithinLongerThanPolicy,
  useWithinNotCompared,
  afterOpeningLongerThanKept,
  beyondUseNotKnown,
  sterilisingNotShown,
  immediateUseTooMany,
  storageContradictsDrug,
  lightProtectionMissing,
  filterForbidden,
  filterContradictsNature,
  natureContradictsName,
  filterRequiredMissing,
  hazardousInHorizontalFlow,
  inLineFilterMissing,
  inLineFilterForbidden,
];
