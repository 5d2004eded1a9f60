import { thingName } from "../../bench/things.ts";
import { showQuantity, toUnit } from "../../quantities/quantity.ts";
import { findUnit } from "../../quantities/unit.ts";
import { recipeCheck } from "../check.ts";
import { cleared, type IonsMet, ionsMet, limitOf } from "./ions-together.ts";
import { thiamineCompatible, twoDrugs } from "./two-drugs.ts";

/** Thiamine's ampoule stands for a source of phosphate; the row says how much magnesium stays clear beside it. */
const withPhosphate = (limit: string) =>
  twoDrugs(
    [
      thiamineCompatible,
      `${thiamineCompatible}\n  together       magnesium up to 200 mmol/L with phosphate up to ${limit}`,
    ],
    [
      "  strength   50 mg/mL\n  fill       2 mL\n",
      "  strength   50 mg/mL\n  contains   phosphate 5 mmol/mL\n  fill       2 mL\n",
    ],
  );

export const ionsBeyondSolubility = recipeCheck<IonsMet & { at: IonsMet["addition"]["spot"] }>({
  name: "ions-beyond-solubility",
  family: "stability",
  severity: "error",
  title: "Two ions stronger together than is declared to stay in solution",
  why: "Calcium and phosphate fall out as crystals that have killed; they are judged at the volume present when one of them is added, over all their sources.",
  source:
    "Calcium phosphate precipitates and acute respiratory distress (public medical-algorithms site summarising the 1994 alert, undated, prevention items 1 to 10)",
  rows: ["technique-rules ca-po4-volume-at-addition", "technique-rules ca-po4-all-sources"],
  bad: withPhosphate("1 mmol/L"),
  good: withPhosphate("100 mmol/L"),
  *find({ runs }) {
    const told = new Set<string>();
    for (const met of runs.flatMap(ionsMet)) {
      const key = `${met.vessel.name} ${met.one} ${met.other}`;
      if (told.has(key) || cleared(met) !== false) continue;
      told.add(key);
      yield { ...met, at: met.addition.spot };
    }
  },
  say: ({ addition, vessel, one, other, oneNow, otherNow, rows }) => {
    const perLitre = (q: typeof oneNow) => showQuantity(asPerLitre(q!), 4);
    const declared = rows.map(
      ({ fact }) => `${one} up to ${limitOf(fact, one).written} with ${other} up to ${limitOf(fact, other).written}`,
    );
    const volume = showQuantity({ value: vessel.liquid.volume, unit: findUnit("mL").unit! }, 4);
    return {
      text: `After the addition in step ${addition.step.number}, ${thingName(vessel)} holds ${perLitre(oneNow)} of ${one} and ${perLitre(otherNow)} of ${other} in ${volume}; declared to stay clear is ${declared.join(", or ")}. Add one of them when more liquid is in, or lower one of them.`,
      related: rows.map(({ drug, fact }) => ({
        at: { start: fact.start, end: fact.end, chunk: drug.chunk },
        text: "declared here",
      })),
    };
  },
});

function asPerLitre(q: NonNullable<IonsMet["oneNow"]>): NonNullable<IonsMet["oneNow"]> {
  const unit = findUnit(`${q.unit.spelling.split("/")[0]}/L`).unit;
  const turned = unit && toUnit(q, unit);
  return turned && !("refused" in turned) ? turned : q;
}
