/** Checks of stock. */
import type { AnyCheck } from "../check.ts";

export const stockChecks: readonly AnyCheck[] = [];
