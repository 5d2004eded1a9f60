/** What the order wants in a finished container: the volume, and the amount of a drug. */
import { amountOf, isRefusal } from "../../bench/amounts.ts";
import { orderedFinalVolume } from "../../bench/order.ts";
import type { Run } from "../../bench/run.ts";
import type { Vessel } from "../../bench/things.ts";
import { Exact } from "../../quantities/exact.ts";
import { volumeOf } from "../../quantities/quantity.ts";
import { containerShare } from "./container-share.ts";

/** The ordered volume of a finished container, of which another volume is told. */
export function orderedVolume({ recipe, point, doses }: Run, vessel: Vessel): Exact | undefined {
  return volumeOf(orderedFinalVolume(recipe, point, doses, vessel.name));
}

/** What the order wants in this container, where it is one dose of this drug for each container. */
export function orderedAmount(drug: string, vessel: Vessel, run: Run): Exact | undefined {
  const [dose, second] = run.doses.filter((d) => d.drug === drug && containerShare(d, vessel, run) !== "other");
  const kind = run.setup.kinds.get(drug);
  const substance = run.setup.drugs.get(drug)?.substance;
  if (!dose?.given || second || !kind || !substance) return undefined;
  const share = containerShare(dose, vessel, run);
  const wanted = amountOf(dose.given, kind, substance, dose.as, dose.ion);
  return !(share instanceof Exact) || isRefusal(wanted) ? undefined : wanted.times(share);
}
