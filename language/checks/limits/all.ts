/** Checks of limits. */
import type { AnyCheck } from "../check.ts";

export const limitChecks: readonly AnyCheck[] = [];
