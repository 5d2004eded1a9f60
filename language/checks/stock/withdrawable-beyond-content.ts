import { labelRounding } from "../../bench/dissolved-volume.ts";
import { libraryCheck } from "../check.ts";
import { powderExample } from "../example.ts";
import { amount, ml } from "../showing.ts";
import { powderLabel } from "./powder-label.ts";

export const withdrawableBeyondContent = libraryCheck({
  name: "withdrawable-beyond-content",
  family: "stock",
  severity: "error",
  title: "A powder vial from which more could be drawn than it holds",
  why: "Strength, withdrawable volume and content stand on one label and cannot contradict each other.",
  source: "common practice",
  bad: powderExample(["    withdrawable  10 mL\n", "    withdrawable  12 mL\n"]),
  good: powderExample(),
  *find({ declaration, lookup }) {
    const label = powderLabel(declaration, lookup);
    if (!label?.withdrawable) return;
    const { kind, content, added, gives, displacement, withdrawable } = label;
    const { volume: out, slot: at } = withdrawable;
    // A rounded strength proves little; what goes in and what the powder takes up say more.
    if (!gives || (gives.about && displacement)) {
      const whole = added && displacement && added.volume.plus(displacement.volume);
      if (whole && out.isAbove(whole))
        yield { at, text: `${ml(out)} are to be drawn, and the vial holds ${ml(whole)}` };
      return;
    }
    const most = gives.about ? content.held.times(labelRounding) : content.held;
    // A label that implies a negative displacement is told where the vial is dissolved.
    if (added?.volume.times(gives.perMl).isAbove(content.held)) return;
    const drawn = gives.perMl.times(out);
    if (drawn.isAbove(most)) {
      const text = `${ml(out)} of ${gives.slot.written} is ${amount(drawn, kind)}, and the vial holds ${amount(content.held, kind)}`;
      yield { at, text };
    }
  },
  say: ({ text }) => ({ text: `${text}. Correct \`withdrawable\`, the strength or the content from the label.` }),
});
