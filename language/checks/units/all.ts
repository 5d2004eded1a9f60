/** Checks of units: what a quantity measures, and whether an amount can be computed from it. */
import type { AnyCheck } from "../check.ts";
import { amountNotComputable } from "./amount-not-computable.ts";
import { doseNotCompared } from "./dose-not-compared.ts";
import { doseOutsideWindow } from "./dose-outside-window.ts";
import { perKgWithoutWeight } from "./per-kg-without-weight.ts";
import { saltNotKnown } from "./salt-not-known.ts";
import { saltOrBaseNotSaid } from "./salt-or-base-not-said.ts";
import { strengthPercentWithoutKind } from "./strength-percent-without-kind.ts";
import { unitMissing } from "./unit-missing.ts";
import { unknownUnit } from "./unknown-unit.ts";
import { wrongDimension } from "./wrong-dimension.ts";

export const unitChecks: readonly AnyCheck[] = [
  amountNotComputable,
  doseNotCompared,
  doseOutsideWindow,
  perKgWithoutWeight,
  saltNotKnown,
  saltOrBaseNotSaid,
  strengthPercentWithoutKind,
  unitMissing,
  unknownUnit,
  wrongDimension,
];
