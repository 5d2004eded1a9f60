/** Whether an order says that it is given at once: the whole of a container, or a part of it. */
import type { Recipe } from "../model/declaration.ts";

export function isGivenAtOnce({ order }: Recipe): boolean {
  const use = order?.one("use")?.slots;
  return use?.use.choice === "bolus" || (use?.use.choice === "part-of-container" && use.given !== undefined);
}
