import type { RangeSlot } from "../../model/slots.ts";
import { Exact } from "../../quantities/exact.ts";
import { recipeCheck } from "../check.ts";
import { thiamineCompatible, twoDrugs } from "./two-drugs.ts";

/** pH units between the nearest ends of two ranges from which an acid and an alkaline product are a signal of precipitation. */
const far = Exact.of(4);

const both = (other: string) =>
  twoDrugs(
    [thiamineCompatible, `${thiamineCompatible}\n  ph             2.5 pH to 4.5 pH`],
    ['  formula        "MgSO4.7H2O"\n', `  formula        "MgSO4.7H2O"\n  ph             ${other}\n`],
  );

interface Apart {
  at: { start: number; end: number };
  acid: { name: string; range: RangeSlot };
  alkaline: { name: string; range: RangeSlot };
  container: string;
  gap: Exact;
}

export const phFarApart = recipeCheck<Apart>({
  name: "ph-far-apart",
  family: "stability",
  severity: "note",
  title: "An acid and an alkaline product in one container",
  why: "A drug that dissolves only in acid or only in alkali may fall out when the other is added, also where the two are called compatible at another strength.",
  source:
    "from memory: about 4 units of pH between two products; pH ranges as in the injection labels of phenytoin sodium, furosemide and vancomycin",
  rows: [
    "limits ph-phenytoin",
    "limits ph-furosemide",
    "limits ph-aminophylline",
    "limits ph-vancomycin",
    "limits ph-oxytocin",
    "limits ph-nitroglycerin",
    "limits ph-dexmedetomidine",
    "limits ph-calcium",
  ],
  bad: both("8.6 pH to 9 pH"),
  good: both("8.2 pH to 9 pH"),
  *find({ recipe, run }) {
    const told = new Set<string>();
    for (const vessel of run.finals) {
      const known = vessel.liquid.drugs.flatMap((name) => {
        const range = run.setup.drugs.get(name)?.facts.one("ph")?.slots.range;
        return range?.from.quantity && range.to.quantity ? [{ name, range }] : [];
      });
      for (const acid of known) {
        for (const alkaline of known) {
          const gap = alkaline.range.from.quantity!.value.minus(acid.range.to.quantity!.value);
          const key = `${acid.name} ${alkaline.name}`;
          if (gap.isBelow(far) || told.has(key)) continue;
          told.add(key);
          const at = recipe.order?.all("additive").find((f) => f.slots.drug.name === alkaline.name);
          yield {
            at: at ?? recipe.order?.one("drug") ?? vessel.material.name,
            acid,
            alkaline,
            container: vessel.name,
            gap,
          };
        }
      }
    }
  },
  say: ({ acid, alkaline, container, gap }) => ({
    text: `${container} holds ${acid.name} (pH ${span(acid.range)}) and ${alkaline.name} (pH ${span(alkaline.range)}), ${gap.toText()} units apart. Look up whether the two stay clear at these strengths, and inspect the mixture.`,
  }),
});

function span({ from, to }: RangeSlot): string {
  const [low, high] = [from.quantity?.value.toText(), to.quantity?.value.toText()];
  return low === high ? `${low}` : `${low} to ${high}`;
}
