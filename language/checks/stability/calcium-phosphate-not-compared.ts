import { thingName } from "../../bench/things.ts";
import { recipeCheck } from "../check.ts";
import { cleared, type IonsMet, ionsMet } from "./ions-together.ts";
import { thiamineCompatible, twoDrugs } from "./two-drugs.ts";

/** Both ampoules of the example stand for sources of calcium and phosphate. */
const both = (row: string) =>
  twoDrugs(
    [thiamineCompatible, `${thiamineCompatible}${row}`],
    [
      "  strength   50 mg/mL\n  fill       2 mL\n",
      "  strength   50 mg/mL\n  contains   phosphate 0.5 mmol/mL\n  contains   calcium 0.1 mmol/mL\n  fill       2 mL\n",
    ],
    // With the 4 h of giving, no longer than calcium and phosphate may stand at room temperature.
    ["    use-within     24 h at room-temperature\n", "    use-within     20 h at room-temperature\n"],
  );

export const calciumPhosphateNotCompared = recipeCheck<IonsMet & { at: IonsMet["addition"]["spot"] }>({
  name: "calcium-phosphate-not-compared",
  family: "stability",
  severity: "warning",
  title: "Calcium and phosphate in one container, and nothing declared that they can be held against",
  why: "Whether they stay in solution depends on both strengths; without a declared row nobody has looked.",
  source:
    "Calcium phosphate precipitates and acute respiratory distress (public medical-algorithms site summarising the 1994 alert, undated, prevention items 1 to 10)",
  rows: ["technique-rules ca-po4-all-sources"],
  bad: both(""),
  good: both("\n  together       calcium up to 5 mmol/L with phosphate up to 15 mmol/L"),
  *find({ run }) {
    const told = new Set<string>();
    for (const met of ionsMet(run)) {
      if (told.has(met.vessel.name) || cleared(met) !== undefined) continue;
      told.add(met.vessel.name);
      yield { ...met, at: met.addition.spot };
    }
  },
  say: ({ addition, vessel, one, other, unknown }) => ({
    text: unknown
      ? `After step ${addition.step.number}, ${thingName(vessel)} holds ${one} and ${other}, and how much is not known: ${unknown}. State it, so that the two can be compared.`
      : `After step ${addition.step.number}, ${thingName(vessel)} holds ${one} and ${other}, and no drug in it says up to which strengths they stay clear. Add a \`together\` row with its source to the drug.`,
  }),
});
