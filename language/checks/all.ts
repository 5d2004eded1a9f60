/** The checks of all families, in the order in which they are listed for people. */
import type { AnyCheck } from "./check.ts";
import { limitChecks } from "./limits/all.ts";
import { notationChecks } from "./notation/all.ts";
import { recordChecks } from "./record/all.ts";
import { stabilityChecks } from "./stability/all.ts";
import { stockChecks } from "./stock/all.ts";
import { structureChecks } from "./structure/all.ts";
import { techniqueChecks } from "./technique/all.ts";
import { unitChecks } from "./units/all.ts";
import { volumeChecks } from "./volumes/all.ts";

export const everyCheck: readonly AnyCheck[] = [
  ...notationChecks,
  ...unitChecks,
  ...volumeChecks,
  ...techniqueChecks,
  ...stockChecks,
  ...stabilityChecks,
  ...limitChecks,
  ...recordChecks,
  ...structureChecks,
];
