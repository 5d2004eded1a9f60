import { Exact } from "../../quantities/exact.ts";
import { libraryCheck } from "../check.ts";
import { powderExample } from "../example.ts";
import { amount, ml, percent } from "../showing.ts";
import { isPowderMisfit } from "./powder-figures-do-not-fit.ts";
import { powderLabel } from "./powder-label.ts";

/** Vials are overfilled by some percent and hold a rest back; a label that gives up a third of its vial is misread. */
const least = Exact.of("0.65");

const larger = (withdrawable: string) => `
stock vancomycin-vial-1000 {
  drug       vancomycin
  container  powder-vial
  content    1 g
  doses      single
  storage    room-temperature
  reconstitute {
    source        guide "vancomycin"
    with          20 mL of water-for-injection
    gives         50 mg/mL
    withdrawable  ${withdrawable}
  }
}
`;

export const withdrawableFarBelowContent = libraryCheck({
  name: "withdrawable-far-below-content",
  family: "stock",
  severity: "warning",
  title: "A powder vial from which far less can be drawn than it holds",
  why: "Strength, withdrawable volume and content stand on one label; by a figure that is too small the steps ask for vials that nobody needs.",
  source: "common practice",
  bad: powderExample() + larger("2 mL"),
  good: powderExample() + larger("20 mL"),
  *find({ declaration, lookup }) {
    const label = powderLabel(declaration, lookup);
    if (!label?.withdrawable || !label.gives) return;
    const { kind, content, gives, withdrawable } = label;
    // A label that cannot be so for another reason is told as that.
    if (declaration.kind === "stock" && isPowderMisfit(declaration, lookup)) return;
    const drawn = gives.perMl.times(withdrawable.volume);
    if (drawn.isAtLeast(content.held.times(least))) return;
    yield {
      at: withdrawable.slot,
      text: `${ml(withdrawable.volume)} of ${gives.slot.written} is ${amount(drawn, kind)}, ${percent(drawn.over(content.held))} of the ${amount(content.held, kind)} in the vial`,
    };
  },
  say: ({ text }) => ({
    text: `${text}. Correct \`withdrawable\`, the strength or the content from the label.`,
  }),
});
