/** Checks of limits: strength, rate, route, and whether what is claimed has a source. */
import type { AnyCheck } from "../check.ts";
import { claimWithoutSource } from "./claim-without-source.ts";
import { concentrateGivenUndiluted } from "./concentrate-given-undiluted.ts";
import { concentrationAboveLimit } from "./concentration-above-limit.ts";
import { concentrationBelowLimit } from "./concentration-below-limit.ts";
import { concentrationUnusual } from "./concentration-unusual.ts";
import { limitNotCompared } from "./limit-not-compared.ts";
import { osmolarityTooHighForPeripheral } from "./osmolarity-too-high-for-peripheral.ts";
import { preservativeByRoute } from "./preservative-by-route.ts";
import { rateAboveLimit } from "./rate-above-limit.ts";
import { rateBelowLimit } from "./rate-below-limit.ts";
import { routeForbidden } from "./route-forbidden.ts";

export const limitChecks: readonly AnyCheck[] = [
  concentrationAboveLimit,
  concentrationBelowLimit,
  concentrationUnusual,
  concentrateGivenUndiluted,
  rateAboveLimit,
  rateBelowLimit,
  limitNotCompared,
  osmolarityTooHighForPeripheral,
  routeForbidden,
  preservativeByRoute,
  claimWithoutSource,
];
