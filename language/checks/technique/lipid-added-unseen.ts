import { happened } from "../../bench/run.ts";
import { thingName } from "../../bench/things.ts";
import type { Drug } from "../../model/declaration.ts";
import { recipeCheck } from "../check.ts";
import { stepBefore } from "../edits.ts";
import { twoDrugs } from "../stability/two-drugs.ts";

/** Thiamine stands for an emulsion from a vial, added to the bag that holds magnesium. */
function withEmulsion(before: string): string {
  return twoDrugs(
    [
      '  name           "thiamine hydrochloride"\n',
      '  name           "thiamine hydrochloride"\n  nature         emulsion\n',
    ],
    ["  drug       thiamine\n  container  ampoule\n", "  drug       thiamine\n  container  vial\n"],
    ["    tap thi\n", before],
    ["    open thi\n", ""],
    ["    attach thi-filter to thi-syringe\n", "    attach thi-needle to thi-syringe\n"],
    ["    replace thi-filter on thi-syringe with thi-needle\n", ""],
    ["form           solution-for-infusion", "form           emulsion-for-infusion"],
  );
}

export const lipidAddedUnseen = recipeCheck({
  name: "lipid-added-unseen",
  family: "technique",
  severity: "error",
  title: "An emulsion added to a mixture that nobody looked at, or before the calcium",
  why: "A white emulsion hides a precipitate: the mixture is looked at while it is clear, and calcium goes in before.",
  source:
    "Calcium phosphate precipitates and acute respiratory distress (public medical-algorithms site summarising the 1994 alert, undated, prevention items 1 to 10)",
  rows: ["technique-rules lipid-last"],
  bad: withEmulsion(""),
  good: withEmulsion("    inspect bag\n"),
  happening: "addition",
  *find({ run }) {
    const all = happened(run, "addition");
    const is = (drug: string, test: (facts: Drug) => boolean) => {
      const found = run.setup.drugs.get(drug);
      return found !== undefined && test(found);
    };
    for (const vessel of new Set(all.map((a) => a.data.vessel))) {
      const here = all.filter((a) => a.data.vessel === vessel);
      for (const [at, addition] of here.entries()) {
        const { present, drugs } = addition.data;
        const lipid = drugs.find((drug) => is(drug, isEmulsion));
        const lipidThere = present.drugs.find((drug) => is(drug, isEmulsion));
        const calcium = drugs.find((drug) => is(drug, givesCalcium));
        if (lipidThere !== undefined && calcium !== undefined) {
          yield {
            at: addition.spot,
            fault: "calcium-after" as const,
            vessel,
            step: addition.step,
            drug: calcium,
            other: lipidThere,
          };
        }
        const before = here[at - 1]?.step.number;
        if (lipid === undefined || lipidThere !== undefined || present.drugs.length === 0) continue;
        const seen = run.steps.some(
          (s) =>
            s.verb === "inspect" &&
            !s.skipped &&
            s.number > (before ?? 0) &&
            s.number < addition.step.number &&
            s.touched.includes(vessel),
        );
        if (!seen)
          yield {
            at: addition.spot,
            fault: "unseen" as const,
            vessel,
            step: addition.step,
            drug: lipid,
            other: present.drugs.join(", "),
          };
      }
    }
  },
  say: ({ fault, vessel, step, drug, other }) => ({
    text:
      fault === "unseen"
        ? `Step ${step.number} adds ${drug}, an emulsion, to ${thingName(vessel)}, which holds ${other} and was not looked at since. Inspect ${vessel.name} while it is clear, then add ${drug}.`
        : `Step ${step.number} adds ${drug} to ${thingName(vessel)} after the emulsion ${other}, which would hide a precipitate. Add ${drug} first, inspect ${vessel.name}, then add ${other}.`,
  }),
  fixes: ({ fault, vessel, step }, { chunk }) =>
    fault === "unseen"
      ? [
          {
            title: `Inspect ${vessel.name} before step ${step.number}`,
            edits: [stepBefore(chunk.text, step.step, `inspect ${vessel.name}`)],
          },
        ]
      : [],
});

function isEmulsion(drug: Drug): boolean {
  return drug.facts.one("nature")?.slots.nature.choice === "emulsion";
}

function givesCalcium(drug: Drug): boolean {
  return drug.substance.ions.some((ion) => ion.name === "calcium");
}
