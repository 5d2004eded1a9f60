/** Checks of the record: what a master record has to say. */
import type { AnyCheck } from "../check.ts";
import { appearanceMissing } from "./appearance-missing.ts";
import { formMissing } from "./form-missing.ts";
import { inspectionStepMissing } from "./inspection-step-missing.ts";
import { labelStepMissing } from "./label-step-missing.ts";
import { methodNotSaid } from "./method-not-said.ts";
import { titleContradictsOrder } from "./title-contradicts-order.ts";
import { titleMissing } from "./title-missing.ts";
import { useWithinMissing } from "./use-within-missing.ts";

export const recordChecks: readonly AnyCheck[] = [
  titleMissing,
  titleContradictsOrder,
  formMissing,
  appearanceMissing,
  useWithinMissing,
  methodNotSaid,
  inspectionStepMissing,
  labelStepMissing,
];
