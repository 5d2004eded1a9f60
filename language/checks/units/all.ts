/** Checks of units: what a quantity measures, and whether an amount can be computed from it. */
import type { AnyCheck } from "../check.ts";
import { activityCountedOtherwise } from "./activity-counted-otherwise.ts";
import { amountNotComputable } from "./amount-not-computable.ts";
import { aucFormulaNotDeclared } from "./auc-formula-not-declared.ts";
import { bandEmpty } from "./band-empty.ts";
import { bandGivesOutside } from "./band-gives-outside.ts";
import { bandNotComparable } from "./band-not-comparable.ts";
import { bandsGap } from "./bands-gap.ts";
import { bandsOutOfOrder } from "./bands-out-of-order.ts";
import { bandsOverlap } from "./bands-overlap.ts";
import { boundAlwaysReached } from "./bound-always-reached.ts";
import { boundNeverReached } from "./bound-never-reached.ts";
import { capNotAMultiple } from "./cap-not-a-multiple.ts";
import { doseNotCompared } from "./dose-not-compared.ts";
import { doseOutsideBands } from "./dose-outside-bands.ts";
import { doseOutsideWindow } from "./dose-outside-window.ts";
import { doseRoundedToNothing } from "./dose-rounded-to-nothing.ts";
import { doseRuleNotApplied } from "./dose-rule-not-applied.ts";
import { drawnFormNotSaid } from "./drawn-form-not-said.ts";
import { formStatedTwiceOtherwise } from "./form-stated-twice-otherwise.ts";
import { formulaNotRead } from "./formula-not-read.ts";
import { ionContradictsFormula } from "./ion-contradicts-formula.ts";
import { minimumAboveMaximum } from "./minimum-above-maximum.ts";
import { patientFigureNotUsed } from "./patient-figure-not-used.ts";
import { perKgWithoutWeight } from "./per-kg-without-weight.ts";
import { rangeBackwards } from "./range-backwards.ts";
import { roundingMovesDose } from "./rounding-moves-dose.ts";
import { saltNotKnown } from "./salt-not-known.ts";
import { saltOrBaseNotSaid } from "./salt-or-base-not-said.ts";
import { strengthPercentWithoutKind } from "./strength-percent-without-kind.ts";
import { unitMissing } from "./unit-missing.ts";
import { unknownUnit } from "./unknown-unit.ts";
import { wrongDimension } from "./wrong-dimension.ts";

export const unitChecks: readonly AnyCheck[] = [
  activityCountedOtherwise,
  amountNotComputable,
  aucFormulaNotDeclared,
  bandEmpty,
  bandGivesOutside,
  bandNotComparable,
  bandsGap,
  bandsOutOfOrder,
  bandsOverlap,
  boundAlwaysReached,
  boundNeverReached,
  roundingMovesDose,
  capNotAMultiple,
  doseNotCompared,
  doseOutsideBands,
  doseOutsideWindow,
  drawnFormNotSaid,
  formStatedTwiceOtherwise,
  minimumAboveMaximum,
  perKgWithoutWeight,
  rangeBackwards,
  saltNotKnown,
  saltOrBaseNotSaid,
  strengthPercentWithoutKind,
  unitMissing,
  unknownUnit,
  wrongDimension,
  doseRuleNotApplied,
  formulaNotRead,
  ionContradictsFormula,
  doseRoundedToNothing,
  patientFigureNotUsed,
];
