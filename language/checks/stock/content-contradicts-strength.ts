import { kindOf, kindUnits } from "../../bench/amounts.ts";
import type { Stock } from "../../model/declaration.ts";
import { inBase, type Quantity, showQuantity } from "../../quantities/quantity.ts";
import { declarationCheck } from "../check.ts";
import { example } from "../example.ts";
import { handy } from "../showing.ts";

const strength = "  strength   500 mg/mL\n";

export const contentContradictsStrength = declarationCheck({
  name: "content-contradicts-strength",
  family: "stock",
  severity: "error",
  title: "A stock whose content, strength and fill do not fit each other",
  why: "The bench reckons with one of the figures; a second that says otherwise would pass unseen.",
  source: "common practice",
  bad: example([strength, `${strength}  content    500 mg\n`]),
  good: example([strength, `${strength}  content    5 g\n`]),
  *find({ declaration }) {
    if (declaration.kind !== "stock" || declaration.facts.isUnread("container")) return;
    const content = declaration.facts.one("content");
    const labelled = declaration.facts.one("strength");
    const powder = declaration.facts.one("container")?.slots.kind.choice === "powder-vial";
    if (powder && labelled) {
      yield {
        at: labelled,
        text: "A powder has no strength before it is dissolved: state `content`, and what it `gives` in `reconstitute`",
      };
      return;
    }
    if (!content || powder) return;
    const whole = wholeOf(declaration);
    const stated = content.slots.content.quantity;
    if (!stated) return;
    if (!whole) {
      yield {
        at: content,
        text: "`content` is for powders; of a liquid it is not reckoned with. State `strength` and `fill`; if a powder is meant, `container powder-vial`",
      };
      return;
    }
    const sameForm = (content.slots.salt?.name ?? "") === (labelled?.slots.salt?.name ?? "");
    const agrees = sameForm && whole.unit.dimension === stated.unit.dimension && inBase(whole).equals(inBase(stated));
    if (!agrees)
      yield {
        at: content,
        text: `The content is stated as ${content.slots.content.written}; strength and fill give ${showQuantity(handy(whole))}. Correct the figure that is wrong`,
      };
  },
  say: ({ text }) => ({ text: `${text}.` }),
});

function wholeOf(stock: Stock): Quantity | undefined {
  const strengthOfIt = stock.facts.one("strength")?.slots.strength.quantity;
  const fill = stock.facts.one("fill")?.slots.fill.quantity;
  const kind = strengthOfIt && kindOf(strengthOfIt);
  if (!strengthOfIt || !fill || !kind || fill.unit.dimension.key !== "volume") return undefined;
  if (!strengthOfIt.unit.dimension.key.endsWith("/volume")) return undefined;
  return { value: inBase(strengthOfIt).times(inBase(fill)), unit: kindUnits[kind] };
}
