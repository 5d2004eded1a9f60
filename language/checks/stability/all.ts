/** Checks of stability: what may meet what, in which container, for how long. */
import type { AnyCheck } from "../check.ts";
import { addedInWrongOrder } from "./added-in-wrong-order.ts";
import { compatibilityNotDeclared } from "./compatibility-not-declared.ts";
import { containerMaterialNotStated } from "./container-material-not-stated.ts";
import { containerMaterialUnsuitable } from "./container-material-unsuitable.ts";
import { diluentIncompatible } from "./diluent-incompatible.ts";
import { drugsIncompatible } from "./drugs-incompatible.ts";
import { filterForbidden } from "./filter-forbidden.ts";
import { filterRequiredMissing } from "./filter-required-missing.ts";
import { hazardousInHorizontalFlow } from "./hazardous-in-horizontal-flow.ts";
import { lightProtectionMissing } from "./light-protection-missing.ts";
import { stabilityNotCovered } from "./stability-not-covered.ts";
import { storageContradictsDrug } from "./storage-contradicts-drug.ts";
import { useWithinLongerThanStability } from "./use-within-longer-than-stability.ts";

export const stabilityChecks: readonly AnyCheck[] = [
  diluentIncompatible,
  drugsIncompatible,
  compatibilityNotDeclared,
  addedInWrongOrder,
  containerMaterialUnsuitable,
  containerMaterialNotStated,
  stabilityNotCovered,
  useWithinLongerThanStability,
  storageContradictsDrug,
  lightProtectionMissing,
  filterForbidden,
  filterRequiredMissing,
  hazardousInHorizontalFlow,
];
