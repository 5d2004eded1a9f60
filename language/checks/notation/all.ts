/** Checks of notation. */
import type { AnyCheck } from "../check.ts";

export const notationChecks: readonly AnyCheck[] = [];
