/** All checks. The list is the only place that knows them; a test walks it. */

import { everyCheck } from "./all.ts";
import type { AnyCheck } from "./check.ts";

export const allChecks: readonly AnyCheck[] = everyCheck;

export const checkByName: ReadonlyMap<string, AnyCheck> = new Map(allChecks.map((check) => [check.name, check]));

export const checkNames: ReadonlySet<string> = new Set(checkByName.keys());
