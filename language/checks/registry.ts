/** All checks. The list is the only place that knows them; a test walks it. */

import { everyCheck } from "./all.ts";
import type { AnyCheck } from "./check.ts";

export const allChecks: readonly AnyCheck[] = everyCheck;

export const checkByName: ReadonlyMap<string, AnyCheck> = new Map(allChecks.map((check) => [check.name, check]));

/** Told from the records beside a recipe, which the language does not read; a site may grade them like any other. */
const toldFromRecords = ["approval-stale", "approval-missing", "approval-later", "approval-not-readable"];

export const checkNames: ReadonlySet<string> = new Set([...checkByName.keys(), ...toldFromRecords]);
