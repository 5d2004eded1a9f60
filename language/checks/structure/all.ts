/** Checks of structure: names, blocks, lines that cannot be read. */
import type { AnyCheck } from "../check.ts";
import { unknownFact } from "./unknown-fact.ts";

export const structureChecks: readonly AnyCheck[] = [unknownFact];
