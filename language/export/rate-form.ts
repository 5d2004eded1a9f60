/** Whether the ordered rate counts another form of the drug than the ingredient tells: it then stays in the text, like a dose of it. */
import { orderedRate } from "../bench/rates.ts";
import type { Run } from "../bench/run.ts";

export function isRateOfOtherForm(run: Run): boolean {
  const as = orderedRate(run)?.as;
  if (as === undefined) return false;
  return run.doses.every(({ drug }) => run.setup.drugs.get(drug)?.substance.base !== as);
}
