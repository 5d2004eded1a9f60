import { Exact } from "../../quantities/exact.ts";
import { inBase, type Quantity, showQuantity } from "../../quantities/quantity.ts";
import { findUnit } from "../../quantities/unit.ts";
import { recipeCheck } from "../check.ts";
import { example } from "../example.ts";
import { measuresOf } from "../stated-measures.ts";
import { isOrderedNotKnown } from "../unread-facts.ts";
import { patientContradicted, routeContradicted, substanceContradicted } from "./words-against-order.ts";

export const titleContradictsOrder = recipeCheck({
  name: "title-contradicts-order",
  family: "record",
  severity: "error",
  title: "The title says something else than the order",
  why: "Whoever picks a recipe by its title makes what the title says.",
  source: "common practice",
  bad: example(["Magnesium sulfate 4 g in", "Magnesium sulfate 2 g in"]),
  good: example(),
  *find({ recipe, runs, lookup }) {
    const title = recipe.facts.one("title")?.slots.text;
    if (!title || !recipe.order || isOrderedNotKnown(recipe)) return;
    for (const contradicted of [
      substanceContradicted(title.text, recipe, lookup),
      routeContradicted(title.text, recipe),
      patientContradicted(title.text, recipe),
    ]) {
      if (contradicted) yield { at: title, written: contradicted.said, ordered: [contradicted.ordered] };
    }
    const figures = figuresIn(title.text);
    if (figures.length === 0) return;
    const ordered = recipe.order
      .every()
      .filter((fact) => fact.word !== "round")
      .flatMap((fact) => measuresOf(fact).filter((m) => m !== (fact.slots as { step?: unknown }).step));
    const given = runs.flatMap((run) => run.doses.flatMap((d) => d.given ?? []));
    const stated = recipe.preparations.flatMap((p) => p.facts.every().flatMap(measuresOf));
    const asStrength = strengthFigures(title.text, [...ordered, ...stated]);
    for (const { written, quantity } of figures) {
      if (asStrength.has(written)) continue;
      const alike = (q: Quantity) => q.unit.dimension === quantity.unit.dimension;
      // A body weight is no dose that a title in mg could contradict.
      const weighed = quantity.unit.spelling === "kg" ? [] : recipe.order.all("weight").flatMap(measuresOf);
      const isWeight = (m: { start: number }) => weighed.some(({ start }) => start === m.start);
      const figured = ordered.filter((m) => !isWeight(m));
      // A mass of an ion is laid against no mass of the drug.
      const isOfIon =
        quantity.unit.dimension.key === "mass" && runs.some((run) => run.doses.some((d) => d.ion !== undefined));
      if (isOfIon) continue;
      const own = [...figured.flatMap((m) => m.quantity ?? []), ...given].filter(alike);
      const all = [...own, ...stated.flatMap((m) => m.quantity ?? []).filter(alike)];
      if (own.length === 0 || all.some((q) => inBase(q).equals(inBase(quantity)))) continue;
      const shown = figured.filter((m) => m.quantity && alike(m.quantity));
      const sameUnit = shown.filter((m) => m.quantity!.unit.spelling === quantity.unit.spelling);
      yield {
        at: title,
        written,
        ordered: [...new Set((sameUnit.length > 0 ? sameUnit : shown).map((m) => m.written))],
        given: own.map((q) => showQuantity(q)),
      };
    }
  },
  say: ({ written, ordered, given = [] }) => ({
    text: `The title says ${written}; the order ${ordered.length > 0 ? `says ${ordered.join(" and ")}` : `comes to ${[...new Set(given)].join(" and ")}`}. Correct whichever is wrong.`,
  }),
});

/** The two figures of `1 mg in 0.1 mL` where it is a strength that the recipe states, here 10 mg/mL. */
function strengthFigures(text: string, measures: readonly { quantity: Quantity | undefined }[]): ReadonlySet<string> {
  const found = new Set<string>();
  if (!text.includes(" in ")) return found;
  for (const pair of text.matchAll(/([\d.,]+ ?[A-Za-z]+) in ([\d.,]+ ?mL)(?![A-Za-z])/g)) {
    const [amount, volume] = [figuresIn(pair[1]!)[0], figuresIn(pair[2]!)[0]];
    const unit = amount && volume && findUnit(`${amount.quantity.unit.spelling}/mL`).unit;
    if (!unit || !volume.quantity.value.isPositive()) continue;
    const strength = inBase({ value: amount.quantity.value.over(inBase(volume.quantity)), unit });
    const isStated = measures.some(
      ({ quantity }) => quantity?.unit.dimension === unit.dimension && inBase(quantity).equals(strength),
    );
    if (isStated) for (const { written } of [amount, volume]) found.add(written);
  }
  return found;
}

/** `4 g`, `1,000 mL`, `20 mmol/L` in running text. Percents name a fluid and are left aside. */
function figuresIn(text: string): readonly { written: string; quantity: Quantity }[] {
  const found: { written: string; quantity: Quantity }[] = [];
  for (const [written, number, word] of text.matchAll(
    /(?<![\w.,-])(\d{1,3}(?:,\d{3})+(?:\.\d+)?|\d+(?:\.\d+)?) ?([A-Za-z]+(?:\/[A-Za-z0-9]+)*)/g,
  )) {
    const unit = findUnit(word!).unit;
    if (unit && unit.parts.length > 0)
      found.push({ written, quantity: { value: Exact.of(number!.replaceAll(",", "")), unit } });
  }
  return found;
}
