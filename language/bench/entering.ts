/** A syringe goes into a container with what is on it, and liquid passes that. */

import type { Spot } from "../model/slots.ts";
import { Exact } from "../quantities/exact.ts";
import { inBase } from "../quantities/quantity.ts";
import { findUnit } from "../quantities/unit.ts";
import type { Bench } from "./bench.ts";
import { watchTip } from "./fitting-parts.ts";
import { filtered, type Liquid } from "./liquid.ts";
import { hasEntry, isFilter, isNeedle, isSealedVial, isSharp, type Part, type Vessel } from "./things.ts";
import { carriesAnything, closesTip, mayBeClosed } from "./vessels.ts";

/** Micrometre; what is coarser lets splinters of a glass ampoule through (filter needles and straws for ampoules have this pore). */
const coarsestForGlass = Exact.of(5);
const micrometre = findUnit("micrometre").unit!;

/** Micrometre; undefined where the device does not say. */
function poreOf(part: Part): Exact | undefined {
  const pore = part.device.facts.one("pore")?.slots.pore.quantity;
  return pore && inBase(pore).over(inBase({ value: Exact.one, unit: micrometre }));
}

/** A needle, a spike or tubing goes through the stopper or port of `vessel`, where it has one. */
export function pierce(bench: Bench, vessel: Vessel, spot: Spot): void {
  watchContent(bench, vessel, spot);
  if (!hasEntry(vessel)) return;
  if (!vessel.disinfected) bench.note("entry-not-disinfected", spot, { vessel });
  vessel.opened ??= bench.current;
  vessel.punctures++;
  // A bag's port is touched and exposed between entries; a vial's stopper stays under the hand during one session.
  if (!isSealedVial(vessel)) vessel.disinfected = undefined;
}

/**
 * One step that enters the same containers for one target after another: no step can stand in between, so that the port is wiped as
 * part of it, which the sheet says.
 */
export function wipedEachTime(vessels: readonly Vessel[]): () => void {
  const wiped = vessels.map((vessel) => ({ vessel, disinfected: vessel.disinfected }));
  return () => {
    for (const { vessel, disinfected } of wiped) vessel.disinfected = disinfected;
  };
}

/** Whether what the label says of the content has a value. Where it has none, nobody knows how much there is or what of it moves. */
export function watchContent(bench: Bench, vessel: Vessel, spot: Spot): boolean {
  if (!vessel.contentUnread) return true;
  bench.note("amount-not-computable", spot, { why: "content-unread", vessel, drug: "" });
  bench.unknown = true;
  return false;
}

/** The syringe goes into `vessel`, to draw or to push. */
export function enter(bench: Bench, vessel: Vessel, syringe: Vessel, spot: Spot): void {
  if (vessel.kind === "ampoule" && !vessel.opened) bench.note("ampoule-not-opened", spot, { vessel });
  pierce(bench, vessel, spot);
  const tip = syringe.attached.at(-1);
  watchJoined(bench, syringe, vessel, spot);
  if (!tip) {
    const bySyringe = vessel.kind === "syringe" || vessel.kind === "prefilled-syringe";
    const last = vessel.attached.at(-1);
    const joined =
      isFilledByTip(bench, vessel) ||
      syringe.unknownParts.length > 0 ||
      (bySyringe && carriesAnything(vessel) && !(last && closesTip(last)));
    if (!joined) bench.note("no-needle-attached", spot, { syringe, other: vessel });
    return;
  }
  watchTip(bench, tip, vessel, spot);
  if (!bench.current.through.includes(tip)) bench.current.through.push(tip);
  if (hasEntry(vessel) && isNeedle(tip)) {
    tip.punctures++;
    if (tip.punctures === bench.policy.needlePunctures + 1) {
      bench.note("needle-too-many-punctures", spot, {
        needle: tip,
        punctures: tip.punctures,
        most: bench.policy.needlePunctures,
      });
    }
  }
  if (tip.kind === "spike" || tip.kind === "vented-spike") {
    if (vessel.stock?.facts.one("spike")?.slots.answer.choice === "forbidden") {
      bench.note("spike-forbidden", spot, { vessel, part: tip });
    }
  }
  if (tip.kind === "vented-spike" && (vessel.kind === "bag" || vessel.kind === "empty-bag")) {
    bench.note("vented-spike-in-bag", spot, { vessel, part: tip });
  }
  if (tip.kind === "transfer-device" && vessel.kind === "ampoule") {
    bench.note("transfer-device-on-ampoule", spot, { vessel, part: tip });
  }
  if (hasEntry(vessel) && isSharp(tip) && !mayBeClosed(syringe)) watchClosed(bench, vessel, syringe, tip, spot);
}

/** A connector that a step joined to something leads there and nowhere else; one with an open end is put to whatever is named. */
function watchJoined(bench: Bench, syringe: Vessel, vessel: Vessel, spot: Spot): void {
  for (const [of, other] of [
    [syringe, vessel],
    [vessel, syringe],
  ] as const) {
    const part = of.attached.at(-1);
    if (part?.kind !== "connector" || !part.joins || part.joins === other) continue;
    bench.note("joined-to-another", spot, { part, of, joined: part.joins, other });
    return;
  }
}

/**
 * The filling port of an infusor or cassette takes the bare tip of a syringe. With a hazardous drug on the bench a closed device goes
 * between.
 */
function isFilledByTip(bench: Bench, { kind }: Vessel): boolean {
  return (kind === "infusor" || kind === "cassette") && !bench.hasHazardousDrug();
}

/** A hazardous drug goes through a stopper or port with no closed transfer device. What came from an ampoule had none that fits. */
function watchClosed(bench: Bench, vessel: Vessel, syringe: Vessel, part: Part, spot: Spot): void {
  if (!bench.hasHazardousDrug()) return;
  const drugs = new Set([vessel, syringe].flatMap(({ liquid, powder }) => [...liquid.drugs, powder?.drug ?? ""]));
  const held = new Set([vessel, syringe].flatMap(({ liquid, stock }) => [...liquid.stocks, stock?.name.name ?? ""]));
  for (const { item } of bench.setup.groups.values()) {
    if (item?.kind !== "stock" || !held.has(item.name.name)) continue;
    const drug = item.facts.one("drug")?.slots.drug.name;
    if (drug === undefined || !drugs.has(drug) || item.facts.one("container")?.slots.kind.choice === "ampoule")
      continue;
    if (bench.isHazardousDrug(drug)) {
      bench.note("hazardous-not-closed", spot, { vessel, part, drug });
      return;
    }
  }
}

/** Liquid passes what is on the syringe, one way or the other. */
export function passParts(
  bench: Bench,
  syringe: Vessel,
  liquid: Liquid,
  way: "drawn" | "pushed",
  from: Vessel | undefined,
  spot: Spot,
): Liquid {
  let passed = liquid;
  for (const part of syringe.attached) {
    if (!isFilter(part)) continue;
    if (part.passed && part.passed.way !== way) {
      bench.note("filter-used-both-ways", spot, { filter: part, first: part.passed, way });
    }
    part.passed ??= { way, step: bench.current };
    countFiltered(bench, part, from, spot);
    const pore = poreOf(part);
    for (const drug of liquid.drugs) bench.note("passed-filter", spot, { filter: part, drug });
    if (pore) passed = filtered(passed, pore);
    if (!pore || pore.isAtMost(coarsestForGlass)) passed = { ...passed, glass: false };
  }
  if (syringe.unknownParts.length > 0) {
    for (const drug of liquid.drugs) bench.passedUnknown.add(drug);
    passed = { ...passed, glass: false };
  }
  return passed;
}

function countFiltered(bench: Bench, part: Part, from: Vessel | undefined, spot: Spot): void {
  if (!from?.stock) return;
  const key = `${from.name} ${from.index}`;
  if (part.filtered.includes(key)) return;
  part.filtered.push(key);
  const stated = from.stock.facts.one("one-filter-for")?.slots.count.value;
  const allowed = stated?.isWhole() ? Number(stated.toText()) : 1;
  if (part.filtered.length === allowed + 1) {
    bench.note("filter-shared", spot, { filter: part, allowed });
  }
}
