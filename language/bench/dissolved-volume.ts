/** Volume in a powder vial once its content is dissolved. */
import type { Spot } from "../model/slots.ts";
import { Exact } from "../quantities/exact.ts";
import { inBase, type Quantity } from "../quantities/quantity.ts";
import { isRefusal, strengthOf } from "./amounts.ts";
import type { Bench } from "./bench.ts";
import { watchContent } from "./entering.ts";
import { givenForm } from "./labelled-form.ts";
import type { Vessel } from "./things.ts";

/** How far a figure that the label gives as `about` may lie from what really comes of the powder, as a factor either way. */
export const labelRounding = Exact.of("1.1");

/**
 * In mL: from the label's `gives`, from displacement, or (noted) from the diluent alone. A label that says `about` rounds, and a
 * displacement beside it says what the figure is.
 * @param moved mL that went in
 */
export function dissolvedVolume(bench: Bench, vial: Vessel, moved: Exact, spot: Spot): Exact {
  const powder = vial.powder!;
  const label = vial.stock?.reconstitute;
  const gives = label?.one("gives")?.slots;
  const strength = gives?.strength.quantity;
  const meant = label?.one("with")?.slots.volume.quantity;
  const byDisplacement = powder.displacement;
  const fromDisplacement = byDisplacement ? moved.plus(byDisplacement) : undefined;
  const implied = strength && meant ? impliedDisplacement(bench, vial, strength, inBase(meant)) : undefined;
  if (gives?.about && implied && meant && byDisplacement && fromDisplacement) {
    const [asLabelled, really] = [inBase(meant).plus(implied), inBase(meant).plus(byDisplacement)];
    if (asLabelled.isAtMost(really.times(labelRounding)) && really.isAtMost(asLabelled.times(labelRounding)))
      return fromDisplacement;
  }
  if (implied?.isNegative()) {
    bench.note("displacement-negative", spot, { vessel: vial, implied });
    return fromDisplacement ?? moved;
  }
  const fromGives = implied ? moved.plus(implied) : undefined;
  if (fromGives && fromDisplacement && !fromGives.equals(fromDisplacement)) {
    bench.note("gives-and-displacement-differ", spot, { vessel: vial, fromGives, fromDisplacement });
  }
  if (!fromGives && !fromDisplacement) {
    // A figure of the label that cannot be read is not one that it does not state.
    vial.contentUnread ||= isPowderLabelUnread(vial);
    if (watchContent(bench, vial, spot)) bench.note("displacement-ignored", spot, { vessel: vial });
  }
  return fromGives ?? fromDisplacement ?? moved;
}

function isPowderLabelUnread({ stock }: Vessel): boolean {
  const label = stock?.reconstitute;
  const isUnread = (block: { isUnread(word: string): boolean } | undefined, word: string) =>
    block?.isUnread(word) === true;
  const [volume, strength] = [label?.one("with")?.slots.volume, label?.one("gives")?.slots.strength];
  const displacement = stock?.facts.one("displacement")?.slots.volume;
  return (
    ["with", "gives"].some((word) => isUnread(label, word)) ||
    isUnread(stock?.facts, "displacement") ||
    [volume, strength, displacement].some((figure) => figure !== undefined && !figure.quantity)
  );
}

function impliedDisplacement(bench: Bench, vial: Vessel, gives: Quantity, labelVolume: Exact): Exact | undefined {
  const powder = vial.powder!;
  const kind = bench.setup.kinds.get(powder.drug) ?? "mass";
  const substance = bench.setup.drugs.get(powder.drug)?.substance;
  if (!substance) return undefined;
  const strength = strengthOf(gives, kind, substance, givenForm(vial.stock!));
  if (isRefusal(strength) || !strength.isPositive()) return undefined;
  return powder.amount.over(strength).minus(labelVolume);
}
