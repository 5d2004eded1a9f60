/** Questions about a container that many ask. */
import type { Part, Vessel } from "./things.ts";

/** Tells vessels of one set apart. */
export function vesselKey(vessel: Vessel): string {
  return `${vessel.name} ${vessel.index}`;
}

/** Bought full, so that the label says what may be drawn; a bag in which something was mixed is read by its volume. */
export function isStockContainer(vessel: Vessel): boolean {
  return vessel.stock !== undefined && vessel.liquid.stocks.length <= vessel.yieldsOf;
}

/** Used up one after another, so that their number can be derived. */
export function isConsumable(vessel: Vessel): boolean {
  return vessel.kind === "ampoule" || vessel.kind === "vial" || vessel.kind === "powder-vial";
}

/** Air passes by what is on the syringe; by what is not known it may. */
export function mayVent({ attached, unknownParts }: Vessel): boolean {
  return (
    unknownParts.length > 0 || attached.some((part) => part.kind === "vented-spike" || part.kind === "transfer-device")
  );
}

/** What is on the syringe may be a closed transfer device. */
export function mayBeClosed({ attached, unknownParts }: Vessel): boolean {
  return unknownParts.length > 0 || attached.some((part) => part.kind === "transfer-device");
}

/** Anything sits on its tip, known or not. */
export function carriesAnything({ attached, unknownParts }: Vessel): boolean {
  return attached.length + unknownParts.length > 0;
}

/** What has to come off before anything else goes into the tip; a connector is made for it. */
export function closesTip({ kind }: Part): boolean {
  return closing.has(kind);
}

const closing: ReadonlySet<string> = new Set([
  "needle",
  "filter-needle",
  "filter-straw",
  "spike",
  "vented-spike",
  "cap",
]);
