/** Checks of the record: what a master record has to say. */
import type { AnyCheck } from "../check.ts";
import { appearanceMissing } from "./appearance-missing.ts";
import { drugNameNotKnown } from "./drug-name-not-known.ts";
import { exampleTitleDiffers } from "./example-title-differs.ts";
import { finalCheckMissing } from "./final-check-missing.ts";
import { formContradictsNature } from "./form-contradicts-nature.ts";
import { formMissing } from "./form-missing.ts";
import { formNotCompared } from "./form-not-compared.ts";
import { formulationNotInTitle } from "./formulation-not-in-title.ts";
import { formulationNotOnLabel } from "./formulation-not-on-label.ts";
import { givingNotSaid } from "./giving-not-said.ts";
import { inspectionStepMissing } from "./inspection-step-missing.ts";
import { labelStepMissing } from "./label-step-missing.ts";
import { labelTextContradictsOrder } from "./label-text-contradicts-order.ts";
import { methodNotSaid } from "./method-not-said.ts";
import { monographIncomplete } from "./monograph-incomplete.ts";
import { notKeptForCheck } from "./not-kept-for-check.ts";
import { orderIncomplete } from "./order-incomplete.ts";
import { patientNamed } from "./patient-named.ts";
import { sealStepMissing } from "./seal-step-missing.ts";
import { stockIncomplete } from "./stock-incomplete.ts";
import { titleContradictsOrder } from "./title-contradicts-order.ts";
import { titleMissing } from "./title-missing.ts";
import { titleWithoutDrug } from "./title-without-drug.ts";
import { useWithinMissing } from "./use-within-missing.ts";

export const recordChecks: readonly AnyCheck[] = [
  titleMissing,
  titleContradictsOrder,
  formMissing,
  formNotCompared,
  formulationNotInTitle,
  formulationNotOnLabel,
  formContradictsNature,
  appearanceMissing,
  useWithinMissing,
  methodNotSaid,
  inspectionStepMissing,
  labelStepMissing,
  finalCheckMissing,
  notKeptForCheck,
  sealStepMissing,
  orderIncomplete,
  givingNotSaid,
  monographIncomplete,
  stockIncomplete,
  titleWithoutDrug,
  drugNameNotKnown,
  exampleTitleDiffers,
  labelTextContradictsOrder,
  patientNamed,
];
