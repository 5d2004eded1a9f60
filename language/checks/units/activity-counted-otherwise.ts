import type { Recipe } from "../../model/declaration.ts";
import type { Lookup } from "../../model/lookup.ts";
import type { MeasureSlot } from "../../model/slots.ts";
import type { ActivityKind } from "../../quantities/unit-table.ts";
import { recipeCheck } from "../check.ts";
import { standardAnd } from "../example.ts";
import { measuresOf } from "../stated-measures.ts";

const heparin = (dose: string) =>
  standardAnd(`drug heparin {
  source         guide "heparin"
  name           "heparin sodium"
  high-alert     yes
  hazard         not-hazardous
  light          not-sensitive
  compatible     sodium-chloride-0.9
  dose           from 50 units up to 25,000 units for any route
  concentration  up to 1,000 units/mL for route intravenous
  rate           up to 25,000 units/h for route intravenous
  stable {
    source         guide "heparin"
    in             sodium-chloride-0.9
    at             room-temperature
    concentration  any
    made-of        any
    light          any
    counted-from   mixing
    for            24 h
  }
}

stock heparin-vial {
  drug       heparin
  container  vial
  strength   1,000 units/mL
  fill       5 mL
  doses      single
  storage    room-temperature
}

lots heparin-vial {
  lot "KQ-8112"  expires 2027-09
}

recipe heparin-bag {
  title  "Heparin in sodium chloride 0.9 % 100 mL"

  order {
    drug            heparin
    dose            ${dose} per sack
    diluent         sodium-chloride-0.9
    diluent-volume  100 mL
    method          add-to-bag
    route           intravenous
    access          central
    infuse-over     4 h
  }

  materials {
    vial     heparin-vial
    sack     saline-bag-100
    barrel   syringe-10mL
    thin     needle-21-gauge
  }

  steps {
    check label and expiry of vial, sack
    disinfect vial
    attach thin to barrel
    draw 2 mL from vial into barrel at equal pressure
    expel air from barrel
    check by pharmacist
    disinfect sack
    inject barrel into sack
    mix sack by inverting 10 times
    inspect sack
    seal sack
    label sack
    keep vial, thin, barrel for check
    check by pharmacist
  }

  preparation sack {
    form        solution-for-infusion
    use-within  24 h at room-temperature
    appearance  "clear, colourless, free of particles"
  }
}
`);

export const activityCountedOtherwise = recipeCheck({
  name: "activity-counted-otherwise",
  family: "units",
  severity: "warning",
  title: "Units of one kind ordered, units of another kind on the label",
  why: "Units, international units and pharmacopoeial units of one drug have differed, those of heparin by a tenth.",
  source: "Information for consumers: changes to heparin (US Food and Drug Administration)",
  bad: heparin("2,000 international units"),
  good: heparin("2,000 units"),
  *find({ recipe, lookup }) {
    const labels = labelsOf(recipe, lookup);
    if (labels.size === 0) return;
    for (const fact of recipe.order?.every() ?? []) {
      const drug = drugOf(fact.slots as object, recipe);
      for (const measure of measuresOf(fact)) {
        const kind = measure.quantity?.unit.activityKind;
        const other = kind && labels.get(drug ?? "")?.find((label) => label.kind !== kind);
        if (!other) continue;
        yield {
          at: { start: measure.start, end: measure.end },
          written: measure.written,
          drug: drug!,
          stock: other.stock,
          label: other.measure.written,
          related: other.place,
        };
        return; // the whole order is written alike, most often: said once
      }
    }
  },
  say: ({ written, drug, stock, label, related }) => ({
    text: `The order counts ${drug} as ${written}, the label of ${stock} as ${label}. They are taken for the same unit here. Make sure that they are, and write both alike.`,
    related: [{ at: related, text: `The label of ${stock}` }],
  }),
});

interface Label {
  kind: ActivityKind;
  stock: string;
  measure: MeasureSlot;
  place: { start: number; end: number; chunk: NonNullable<ReturnType<Lookup["any"]>>["chunk"] };
}

/** What the labels of the stocks laid out count, by drug. */
function labelsOf(recipe: Recipe, lookup: Lookup): ReadonlyMap<string, readonly Label[]> {
  const labels = new Map<string, Label[]>();
  for (const { item } of recipe.materials) {
    const stock = lookup.find("stock", item.name);
    if (!stock) continue;
    const drug = stock.facts.one("drug")?.slots.drug.name;
    if (drug === undefined) continue;
    for (const fact of [...stock.facts.all("strength"), ...stock.facts.all("content")]) {
      for (const measure of measuresOf(fact)) {
        const kind = measure.quantity?.unit.activityKind;
        if (!kind) continue;
        const place = { start: measure.start, end: measure.end, chunk: stock.chunk };
        labels.set(drug, [...(labels.get(drug) ?? []), { kind, stock: item.name, measure, place }]);
      }
    }
  }
  return labels;
}

/** The drug that a line of the order speaks of. */
function drugOf(slots: object, recipe: Recipe): string | undefined {
  const own = (slots as { drug?: { name: string } }).drug?.name;
  return own ?? recipe.order?.one("drug")?.slots.drug.name;
}
