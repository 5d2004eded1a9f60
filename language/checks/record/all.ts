/** Checks of record. */
import type { AnyCheck } from "../check.ts";

export const recordChecks: readonly AnyCheck[] = [];
