/** Checks of units. */
import type { AnyCheck } from "../check.ts";

export const unitChecks: readonly AnyCheck[] = [];
