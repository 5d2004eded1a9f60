/**
 * What stays in nozzle and needle hub, beside a small draw, with the parts that stand on the syringe then: the volume by the devices' own facts and its share of what was drawn.
 * A syringe whose draw is not small is left out, as the site's `small-dose` says.
 */
import type { Device } from "../model/declaration.ts";
import type { Policy } from "../model/policy.ts";
import type { NameSlot } from "../model/slots.ts";
import { Exact } from "../quantities/exact.ts";
import { volumeOf } from "../quantities/quantity.ts";
import type { Run } from "./run.ts";
import { type StepRun, takenUp } from "./step-run.ts";
import type { Vessel } from "./things.ts";

export interface DeadSpace {
  step: StepRun;
  syringe: Vessel;
  /** mL drawn in the step. */
  drawn: Exact;
  /** mL that stay behind; the least where a part states none. */
  stays: Exact;
  /** Of what was drawn: 0.1 is a tenth. */
  share: Exact;
  /** Parts that state no `dead-space`. */
  lacks: readonly string[];
  /** Whether the draw says that it counts. */
  stated: "included" | "excluded" | undefined;
}

export function deadSpaces(run: Run, policy: Policy): DeadSpace[] {
  return run.steps.flatMap((step) => {
    const stated = (step.slots as { deadSpace?: { choice: "included" | "excluded" } }).deadSpace?.choice;
    return [...drawnInto(step)].flatMap(([syringe, drawn]) => {
      if (!drawn.isPositive() || drawn.isAbove(policy.smallDose)) return [];
      const devices = [syringe.device, ...partsAt(run, step, syringe.name)].filter((d): d is Device => d !== undefined);
      const known = devices.map((d) => ({ name: d.name.name, volume: deadSpaceOf(d) }));
      const stays = known.reduce((sum, { volume }) => (volume ? sum.plus(volume) : sum), Exact.zero);
      const lacks = known.filter(({ volume }) => !volume).map(({ name }) => name);
      return [{ step, syringe, drawn, stays, share: stays.over(drawn), lacks, stated }];
    });
  });
}

/** What a draw takes up into each syringe; of a set that all take up the same, the first stands for all. */
function drawnInto(step: StepRun): ReadonlyMap<Vessel, Exact> {
  if (step.verb !== "draw") return new Map();
  const into = takenUp(step);
  const [first, ...others] = into;
  return first && others.every(([, drawn]) => drawn.equals(first[1])) ? new Map([first]) : into;
}

function deadSpaceOf(device: Device): Exact | undefined {
  return volumeOf(device.facts.one("dead-space")?.slots.volume.quantity);
}

interface PartSlots {
  part?: NameSlot;
  syringe?: NameSlot;
  other?: NameSlot;
}

/** What stood on the syringe when the step was carried out, from the steps before it: the run keeps only the end. */
function partsAt(run: Run, until: StepRun, syringe: string): Device[] {
  let on: string[] = [];
  for (const step of run.steps) {
    if (step === until) break;
    const { part, syringe: to, other } = step.slots as PartSlots;
    if (step.skipped || to?.name !== syringe || !part) continue;
    if (step.verb === "attach") on = [...on, part.name];
    if (step.verb === "remove" || step.verb === "replace") on = on.filter((name) => name !== part.name);
    if (step.verb === "replace" && other) on = [...on, other.name];
  }
  return on.flatMap((name) => {
    const item = run.groups.get(name)?.item;
    return item?.kind === "device" ? [item] : [];
  });
}
