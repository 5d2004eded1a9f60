/** A dose that is ordered in what cannot be turned into an amount of its drug. */
import { amountOf, isRefusal } from "../bench/amounts.ts";
import type { Run } from "../bench/run.ts";

/** Told at the dose; what is stated in another unit beside it is perhaps right, and not told again. */
export function isDoseRefused({ doses: [dose], setup }: Run): boolean {
  const kind = dose && setup.kinds.get(dose.drug);
  const drug = dose && setup.drugs.get(dose.drug);
  return (
    dose?.given !== undefined &&
    kind !== undefined &&
    drug !== undefined &&
    isRefusal(amountOf(dose.given, kind, drug.substance, dose.as, dose.ion))
  );
}
