/**
 * How much a syringe may deliver more or less than its scale says: ISO 7886-1, table of tolerances on graduated capacity. Below
 * half of the nominal capacity the tolerance is a share of the nominal capacity and a share of the volume; from half upward a share
 * of the volume.
 *
 * Read in a published study of syringe accuracy: 1 mL (all of it) and 10 mL (below half). The other rows are recalled and say so;
 * a site that has the standard at hand compares them.
 */
import { Exact } from "../quantities/exact.ts";

export interface ToleranceRow {
  /** Nominal capacity in mL from which the row holds, up to the next. */
  from: Exact;
  ofNominal: Exact;
  ofVolumeBelowHalf: Exact;
  ofVolumeFromHalf: Exact;
  belowHalfVerified: "read" | "memory";
  fromHalfVerified: "read" | "memory";
}

export const toleranceSource =
  "ISO 7886-1, tolerance on graduated capacity, as applied in a study of syringe accuracy; sizes other than 1 mL and 10 mL from memory";

const row = (
  from: string,
  ofNominal: string,
  ofVolumeBelowHalf: string,
  ofVolumeFromHalf: string,
  belowHalfVerified: "read" | "memory",
  fromHalfVerified: "read" | "memory",
): ToleranceRow => ({
  from: Exact.of(from),
  ofNominal: Exact.of(ofNominal),
  ofVolumeBelowHalf: Exact.of(ofVolumeBelowHalf),
  ofVolumeFromHalf: Exact.of(ofVolumeFromHalf),
  belowHalfVerified,
  fromHalfVerified,
});

export const toleranceRows: readonly ToleranceRow[] = [
  row("0", "0.015", "0.02", "0.05", "read", "read"),
  row("2", "0.015", "0.02", "0.05", "memory", "memory"),
  row("5", "0.015", "0.01", "0.04", "memory", "memory"),
  row("10", "0.015", "0.01", "0.04", "read", "memory"),
  row("20", "0.015", "0.01", "0.04", "memory", "memory"),
];

/** mL by which a volume (mL) drawn into a syringe of this capacity (mL) may differ from the scale, either way. */
export function syringeTolerance(capacity: Exact, volume: Exact): Exact {
  const fits = toleranceRows.findLast((r) => capacity.isAtLeast(r.from))!;
  const isBelowHalf = volume.times(Exact.of(2)).isBelow(capacity);
  return isBelowHalf
    ? capacity.times(fits.ofNominal).plus(volume.times(fits.ofVolumeBelowHalf))
    : volume.times(fits.ofVolumeFromHalf);
}
