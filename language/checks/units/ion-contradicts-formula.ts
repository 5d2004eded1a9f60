import { Exact } from "../../quantities/exact.ts";
import { composition } from "../../quantities/formula.ts";
import { usualCharge } from "../../quantities/ion-charges.ts";
import { ionElement } from "../../quantities/ion-elements.ts";
import { declarationCheck } from "../check.ts";
import { example } from "../example.ts";

export const ionContradictsFormula = declarationCheck({
  name: "ion-contradicts-formula",
  family: "units",
  severity: "error",
  title: "An ion whose charge, count or element does not fit chemistry",
  why: "mmol and mEq are turned into mass by charge and count; a wrong one is a wrong dose by a whole factor.",
  source: "charges of ions as every chemistry text has them, from memory; counts from the formula itself",
  bad: example(["ion            magnesium charge 2", "ion            magnesium charge 1"]),
  good: example(),
  *find({ declaration }) {
    if (declaration.kind !== "drug") return;
    const formula = declaration.facts.one("formula")?.slots.text.text;
    const atoms = formula === undefined ? undefined : composition(formula);
    for (const { slots } of declaration.facts.all("ion")) {
      const { ion, charge, count } = slots;
      const usual = usualCharge(ion.name);
      if (usual && charge.value && !charge.value.abs().equals(usual)) {
        yield {
          at: charge,
          text: `${ion.name} has the charge ${usual.toText()}, not ${charge.written}. Correct the charge.`,
        };
      }
      const element = ionElement(ion.name);
      if (!element || !atoms || "refused" in atoms) continue;
      const held = atoms.get(element.symbol) ?? Exact.zero;
      const stated = count ? count.value : Exact.one;
      // Where there is no carbon, nothing holds a halogen but as its ion: calcium chloride sets two of them free.
      const mayBeBound = element.isAlsoBound && atoms.has("C");
      if (!stated || (mayBeBound ? stated.isAtMost(held) : stated.equals(held))) continue;
      yield {
        at: count ?? ion,
        text: held.isZero()
          ? `The formula ${formula} holds no ${element.symbol}, so it gives no ${ion.name}. Correct the formula, or the ion.`
          : `The formula ${formula} holds ${held.toText()} ${element.symbol}; the ion is counted ${stated.equals(Exact.one) ? "once" : `${stated.toText()} times`}. State \`count ${held.toText()}\`, or correct the formula.`,
      };
    }
  },
  say: ({ text }) => ({ text }),
});
