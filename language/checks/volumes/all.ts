/** Checks of volumes, doses and concentrations against what the steps really do. */
import type { AnyCheck } from "../check.ts";
import { drawBeyondSyringe } from "./draw-beyond-syringe.ts";

export const volumeChecks: readonly AnyCheck[] = [drawBeyondSyringe];
