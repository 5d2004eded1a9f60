/** What the label of a powder vial says, as figures that can be laid against each other. */
import { amountOf, isRefusal, keptAs, kindOf, strengthOf } from "../../bench/amounts.ts";
import { givenForm, labelledForm } from "../../bench/labelled-form.ts";
import type { AmountKind } from "../../bench/liquid.ts";
import { displacementOf } from "../../bench/setup.ts";
import type { Declaration } from "../../model/declaration.ts";
import type { Lookup } from "../../model/lookup.ts";
import type { MeasureSlot } from "../../model/slots.ts";
import type { Exact } from "../../quantities/exact.ts";
import { inBase, type Quantity } from "../../quantities/quantity.ts";

export interface PowderLabel {
  kind: AmountKind;
  /** In the unit of `kind`. */
  content: { held: Exact; slot: MeasureSlot };
  /** Volume that goes in, mL. */
  added: { volume: Exact; slot: MeasureSlot } | undefined;
  /** What `gives` says, in the unit of `kind` per mL; a rounded figure where it says `about`. */
  gives: { perMl: Exact; slot: MeasureSlot; about: boolean } | undefined;
  /** What `gives` says where it counts activity and the content a mass, or the other way round: neither says anything of the other. */
  givesOther: MeasureSlot | undefined;
  /** Of the whole vial, mL. */
  displacement: { volume: Exact; slot: MeasureSlot } | undefined;
  withdrawable: { volume: Exact; slot: MeasureSlot } | undefined;
}

/** Undefined where the stock is no powder whose content can be counted; a figure that cannot be read is left out. */
export function powderLabel(declaration: Declaration, lookup: Lookup): PowderLabel | undefined {
  if (declaration.kind !== "stock" || declaration.facts.one("container")?.slots.kind.choice !== "powder-vial") return;
  const content = declaration.facts.one("content")?.slots;
  const name = declaration.facts.one("drug")?.slots.drug.name;
  const drug = name === undefined ? undefined : lookup.find("drug", name);
  if (!drug || !content?.content.quantity) return undefined;
  const kind = keptAs(drug, content.content.quantity);
  const held = amountOf(content.content.quantity, kind, drug.substance, labelledForm(declaration, "content"));
  if (isRefusal(held) || !held.isPositive()) return undefined;
  const dissolved = declaration.reconstitute;
  const stated = dissolved?.one("gives")?.slots;
  const perMl =
    stated?.strength.quantity && strengthOf(stated.strength.quantity, kind, drug.substance, givenForm(declaration));
  const displacement = declaration.facts.one("displacement")?.slots.volume;
  const isForMass = displacement?.quantity?.unit.dimension.key !== "volume";
  // A displacement for a mass says nothing of a powder counted in units.
  const displaced = isForMass && kind !== "mass" ? undefined : displacementOf(declaration, held);
  return {
    kind,
    content: { held, slot: content.content },
    added: volumeIn(dissolved?.one("with")?.slots.volume),
    gives:
      stated && perMl && !isRefusal(perMl) && perMl.isPositive()
        ? { perMl, slot: stated.strength, about: stated.about !== undefined }
        : undefined,
    givesOther:
      stated?.strength.quantity && isActivity(stated.strength.quantity) !== isActivity(content.content.quantity)
        ? stated.strength
        : undefined,
    displacement: displaced && displacement ? { volume: displaced, slot: displacement } : undefined,
    withdrawable: volumeIn(dissolved?.one("withdrawable")?.slots.volume),
  };
}

function isActivity(quantity: Quantity): boolean {
  return kindOf(quantity) === "activity";
}

function volumeIn(slot: MeasureSlot | undefined): { volume: Exact; slot: MeasureSlot } | undefined {
  if (slot?.quantity?.unit.dimension.key !== "volume") return undefined;
  return { volume: inBase(slot.quantity), slot };
}
