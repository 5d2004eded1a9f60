import { labelRounding } from "../../bench/dissolved-volume.ts";
import type { Declaration, Stock } from "../../model/declaration.ts";
import type { Lookup } from "../../model/lookup.ts";
import type { MeasureSlot } from "../../model/slots.ts";
import { Exact } from "../../quantities/exact.ts";
import { libraryCheck } from "../check.ts";
import { powderLibrary } from "../example.ts";
import { ml } from "../showing.ts";
import { type PowderLabel, powderLabel } from "./powder-label.ts";

/*
 * How much room a powder takes is known to about one millilitre for each gram (published label tables: at most 1.25 mL/g); what is
 * mixed into a small content, such as mannitol, takes more. The bounds leave room for that and for rounded labels, and still
 * tell a content, a strength or a volume that is twice or half what it should be.
 */
const perGram = Exact.of("1.2");
const smallest = Exact.of("0.3");
const shareOfLiquid = Exact.of("0.1");
/** Labels that name the strength of what can be withdrawn seem to lose up to a sixth of what goes in. */
const leastKept = Exact.of("0.75");

const powderAnd = (content: string) => `${powderLibrary}
stock vancomycin-vial {
  drug       vancomycin
  container  powder-vial
  content    ${content}
  doses      single
  storage    room-temperature
  reconstitute {
    source        guide "vancomycin"
    with          10 mL of water-for-injection
    gives         50 mg/mL
    withdrawable  10 mL
  }
}

lots vancomycin-vial {
  lot "KQ-7003"  expires 2027-06
}
`;

export const powderFiguresDoNotFit = libraryCheck({
  name: "powder-figures-do-not-fit",
  family: "stock",
  severity: "error",
  title: "A powder vial whose content, liquid and strength cannot all be true",
  why: "The strength decides the volume that is drawn, the content how many vials are opened; with one of them wrong the dose is wrong.",
  source:
    "Label reconstitution tables (tests/reference/worked-examples/09-label-reconstitution-tables.json); the bounds themselves are from memory",
  bad: powderAnd("1 g"),
  good: powderAnd("500 mg"),
  find: ({ declaration, lookup }) => misfitsOf(declaration, lookup),
  say: ({ text }) => ({ text }),
});

/** Whether content, liquid and strength of a powder cannot all be true, which is told at its stock. */
export function isPowderMisfit(stock: Stock, lookup: Lookup): boolean {
  return !misfitsOf(stock, lookup).next().done;
}

function* misfitsOf(declaration: Declaration, lookup: Lookup): Generator<{ at: MeasureSlot; text: string }, void> {
  const label = powderLabel(declaration, lookup);
  if (!label) return;
  const { content, added, gives, givesOther, displacement } = label;
  if (givesOther) {
    yield {
      at: givesOther,
      text: `The label gives ${givesOther.written} of ${content.slot.written}: neither can be worked out from the other, and the strength is not used. Write it in the unit of the content, as the label states it.`,
    };
  }
  if (displacement && added && displacement.volume.isAbove(mostRoom(label, added.volume))) {
    yield {
      at: displacement.slot,
      text: `The displacement of ${ml(displacement.volume)} is more room than ${content.slot.written} of powder takes. Correct \`displacement\` or \`content\`.`,
    };
  }
  if (!gives || !added) return;
  const whole = content.held.over(gives.perMl);
  const slack = gives.about ? labelRounding : Exact.one;
  const isTooMuch = whole.over(slack).minus(added.volume).isAbove(mostRoom(label, added.volume));
  const isTooLittle = whole.times(slack).isBelow(added.volume.times(leastKept));
  if (!isTooMuch && !isTooLittle) return;
  const made = `${content.slot.written} at ${gives.slot.written} makes ${ml(whole)}, and ${ml(added.volume)} goes in`;
  const why = isTooLittle
    ? "liquid cannot become less"
    : `the powder would take up ${ml(whole.minus(added.volume))}, far more than it can`;
  yield { at: content.slot, text: `${made}: ${why}. Correct \`content\`, \`gives\` or \`with\` from the label.` };
}

/** The most room that the powder can take in what is added, mL. */
function mostRoom({ kind, content }: PowderLabel, added: Exact): Exact {
  if (kind !== "mass") return added;
  return content.held.times(perGram).plus(Exact.greatest(smallest, added.times(shareOfLiquid)));
}
