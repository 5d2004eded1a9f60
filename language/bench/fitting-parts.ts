/**
 * What each kind of part can do: pierce, filter, join, lead liquid over. A cap named where a spike is meant would else let a whole bag
 * through. Which part does what: common practice.
 */
import type { DeviceKind } from "../model/declarations/stock.ts";
import type { Spot } from "../model/slots.ts";
import type { Bench } from "./bench.ts";
import { isNeedle, isSealedVial, type Part, type Vessel } from "./things.ts";

interface Fit {
  kinds: ReadonlySet<DeviceKind>;
  /** What the step needs, in words. */
  needed: string;
}

const serving = (needed: string, ...kinds: DeviceKind[]): Fit => ({ needed, kinds: new Set(kinds) });

/** Adapters that snap onto a vial may be declared as connectors. */
const throughStopper = serving(
  "a needle, a spike or a transfer device",
  "needle",
  "filter-needle",
  "spike",
  "vented-spike",
  "transfer-device",
  "connector",
);
/** A straw is held against the air of an ampoule; that a closed device fits none has a finding of its own. */
const intoAmpoule = serving(
  "a needle, a filter needle or a filter straw",
  "needle",
  "filter-needle",
  "filter-straw",
  "transfer-device",
);
/** A port is pierced, or takes a tip, and then whatever joins two tips. */
const intoPort = serving(
  "a needle, a spike or a connector",
  "needle",
  "filter-needle",
  "syringe-filter",
  "spike",
  "vented-spike",
  "transfer-device",
  "connector",
  "tubing",
);

/** What a step uses a part for, each with the kinds that serve. */
const uses = {
  filters: serving("a filter", "filter-needle", "filter-straw", "syringe-filter"),
  leadsOver: serving(
    "tubing or a transfer device",
    "tubing",
    "transfer-device",
    "connector",
    "needle",
    "spike",
    "vented-spike",
  ),
  joins: serving("a connector", "connector", "transfer-device", "tubing", "syringe-filter"),
  hangsOn: serving(
    "a line or a connector",
    "tubing",
    "connector",
    "transfer-device",
    "syringe-filter",
    "spike",
    "vented-spike",
  ),
} satisfies Record<string, Fit>;

/** Notes a part that cannot serve for what the step uses it for. */
export function watchUse(bench: Bench, part: Part, use: keyof typeof uses, spot: Spot): void {
  watch(bench, part, uses[use], spot);
}

/** Notes a part that is connected to a container and leads nothing to it; on the tip of a syringe goes whatever can be attached. */
export function watchLine(bench: Bench, part: Part, to: Vessel, spot: Spot): void {
  if (to.kind !== "syringe" && to.kind !== "prefilled-syringe") watchUse(bench, part, "hangsOn", spot);
}

/**
 * Notes the part at the tip of a syringe that does not go into `vessel`, or lets nothing through. What goes on behind a filter that a
 * step passes its liquid through, that step does not say.
 */
export function watchTip(bench: Bench, tip: Part, vessel: Vessel, spot: Spot): void {
  if (bench.current.verb === "pass") return;
  watch(bench, tip, wayInto(vessel), spot);
}

function wayInto(vessel: Vessel): Fit {
  if (vessel.kind === "ampoule") return intoAmpoule;
  return isSealedVial(vessel) || vessel.kind.endsWith("bottle") ? throughStopper : intoPort;
}

function watch(bench: Bench, part: Part, { kinds, needed }: Fit, spot: Spot): void {
  if (!kinds.has(part.kind)) bench.note("wrong-kind-of-thing", spot, { thing: part, needed });
}

/** A stopper may take a needle to let air in; these hold none. */
const takesNoNeedle: ReadonlySet<Vessel["kind"]> = new Set(["bag", "empty-bag", "infusor", "cassette"]);

/** Whether the part can be put on the container; noted where it cannot. An ampoule is glass, with nothing to hold on to. */
export function isSeated(bench: Bench, part: Part, on: Vessel, spot: Spot): boolean {
  const isOfHub = isNeedle(part) || part.kind === "filter-straw";
  const isMisplaced =
    on.kind === "ampoule" || (isOfHub && takesNoNeedle.has(on.kind)) || (part.kind === "cap" && isSealedVial(on));
  if (isMisplaced) bench.note("wrong-kind-of-thing", spot, { thing: on, needed: `a syringe for ${part.name}` });
  return !isMisplaced;
}

/** Notes an ampoule that a connector is to join to something. */
export function watchJoined(bench: Bench, ends: readonly (readonly [Vessel, Spot])[]): void {
  for (const [vessel, spot] of ends)
    if (vessel.kind === "ampoule")
      bench.note("wrong-kind-of-thing", spot, { thing: vessel, needed: "a syringe, a bag or a vial" });
}
