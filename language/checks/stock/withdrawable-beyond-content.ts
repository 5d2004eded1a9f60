import { amountOf, isRefusal, keptAs, strengthOf } from "../../bench/amounts.ts";
import { inBase } from "../../quantities/quantity.ts";
import { libraryCheck } from "../check.ts";
import { powderExample } from "../example.ts";
import { amount, ml } from "../showing.ts";

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
    if (declaration.kind !== "stock" || !declaration.reconstitute) return;
    const gives = declaration.reconstitute.one("gives")?.slots;
    const out = declaration.reconstitute.one("withdrawable")?.slots.volume;
    const content = declaration.facts.one("content")?.slots;
    const name = declaration.facts.one("drug")?.slots.drug.name;
    const drug = name === undefined ? undefined : lookup.find("drug", name);
    // `gives about` is a rounded figure that proves nothing.
    if (!drug || gives?.about || !gives?.strength.quantity || !content?.content.quantity) return;
    if (out?.quantity?.unit.dimension.key !== "volume") return;
    const kind = keptAs(drug, content.content.quantity);
    const held = amountOf(content.content.quantity, kind, drug.substance);
    const perMl = strengthOf(gives.strength.quantity, kind, drug.substance);
    if (isRefusal(held) || isRefusal(perMl)) return;
    // A label that implies a negative displacement is told where the vial is dissolved.
    const added = declaration.reconstitute.one("with")?.slots.volume.quantity;
    if (added?.unit.dimension.key === "volume" && inBase(added).times(perMl).isAbove(held)) return;
    const drawn = perMl.times(inBase(out.quantity));
    if (drawn.isAbove(held))
      yield { at: out, volume: inBase(out.quantity), strength: gives.strength.written, drawn, held, kind };
  },
  say: ({ volume, strength, drawn, held, kind }) => ({
    text: `${ml(volume)} of ${strength} is ${amount(drawn, kind)}, and the vial holds ${amount(held, kind)}. Correct \`withdrawable\`, \`gives\` or \`content\`.`,
  }),
});
