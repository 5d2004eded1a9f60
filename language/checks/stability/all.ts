/** Checks of stability. */
import type { AnyCheck } from "../check.ts";

export const stabilityChecks: readonly AnyCheck[] = [];
