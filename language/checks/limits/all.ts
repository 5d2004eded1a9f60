/** Checks of limits: strength, rate, route, and whether what is claimed has a source. */
import type { AnyCheck } from "../check.ts";
import { claimWithoutSource } from "./claim-without-source.ts";
import { concentrateGivenUndiluted } from "./concentrate-given-undiluted.ts";
import { concentrationAboveLimit } from "./concentration-above-limit.ts";
import { concentrationBelowLimit } from "./concentration-below-limit.ts";
import { concentrationNotWatched } from "./concentration-not-watched.ts";
import { concentrationUnusual } from "./concentration-unusual.ts";
import { filledWeightDiffers } from "./filled-weight-differs.ts";
import { filledWeightNotCompared } from "./filled-weight-not-compared.ts";
import { formContradictsRoute } from "./form-contradicts-route.ts";
import { formContradictsUse } from "./form-contradicts-use.ts";
import { givenLongerThanKept } from "./given-longer-than-kept.ts";
import { guardedRouteNotInMonograph } from "./guarded-route-not-in-monograph.ts";
import { limitEmpty } from "./limit-empty.ts";
import { limitNotCompared } from "./limit-not-compared.ts";
import { limitWithoutEffect } from "./limit-without-effect.ts";
import { osmolarityNotComputed } from "./osmolarity-not-computed.ts";
import { osmolarityTooHighForPeripheral } from "./osmolarity-too-high-for-peripheral.ts";
import { patientFigureUnlikely } from "./patient-figure-unlikely.ts";
import { populationNotSaid } from "./population-not-said.ts";
import { preservativeByRoute } from "./preservative-by-route.ts";
import { preservativeNotSaid } from "./preservative-not-said.ts";
import { productForAnotherRoute } from "./product-for-another-route.ts";
import { rateAboveLimit } from "./rate-above-limit.ts";
import { rateAndTimeDiffer } from "./rate-and-time-differ.ts";
import { rateBelowLimit } from "./rate-below-limit.ts";
import { rateNotSettable } from "./rate-not-settable.ts";
import { rateNotWatched } from "./rate-not-watched.ts";
import { routeForbidden } from "./route-forbidden.ts";
import { routeNotInMonograph } from "./route-not-in-monograph.ts";
import { waterAsBulk } from "./water-as-bulk.ts";

export const limitChecks: readonly AnyCheck[] = [
  concentrationAboveLimit,
  concentrationBelowLimit,
  concentrationUnusual,
  concentrateGivenUndiluted,
  limitEmpty,
  limitWithoutEffect,
  osmolarityNotComputed,
  rateAboveLimit,
  rateBelowLimit,
  limitNotCompared,
  osmolarityTooHighForPeripheral,
  routeForbidden,
  populationNotSaid,
  preservativeByRoute,
  preservativeNotSaid,
  productForAnotherRoute,
  formContradictsRoute,
  formContradictsUse,
  claimWithoutSource,
  givenLongerThanKept,
  rateNotWatched,
  rateNotSettable,
  rateAndTimeDiffer,
  filledWeightDiffers,
  filledWeightNotCompared,
  patientFigureUnlikely,
  waterAsBulk,
  routeNotInMonograph,
  guardedRouteNotInMonograph,
  concentrationNotWatched,
];
