import { happened, type Run } from "../../bench/run.ts";
import { thingName } from "../../bench/things.ts";
import { isMixing, mixingVerbs } from "../../bench/verbs/mixing.ts";
import { recipeCheck } from "../check.ts";
import { mayHaveDone } from "../unread-steps.ts";
import { thiamineCompatible, twoDrugs } from "./two-drugs.ts";

type Addition = ReturnType<typeof happened<"addition">>[number];

export const addedInWrongOrder = recipeCheck({
  name: "added-in-wrong-order",
  family: "stability",
  severity: "error",
  title: "Two drugs go into a container in the wrong order, or too close together",
  why: "Where two drugs meet at high strength they can fall out, though the finished mixture would hold them.",
  source:
    "Calcium phosphate precipitates and acute respiratory distress (public medical-algorithms site summarising the 1994 alert, undated, prevention items 1 to 10)",
  rows: ["technique-rules ca-po4-phosphate-first"],
  bad: twoDrugs([thiamineCompatible, `${thiamineCompatible}\n  added-before   magnesium-sulfate`]),
  good: twoDrugs([`  formula        "MgSO4.7H2O"\n`, `  formula        "MgSO4.7H2O"\n  added-before   thiamine\n`]),
  happening: "addition",
  *find({ runs }) {
    for (const run of runs) {
      const additions = happened(run, "addition");
      for (const [name, drug] of run.setup.drugs) {
        for (const fact of drug.facts.all("added-before")) {
          const later = fact.slots.drug.name;
          for (const vessel of new Set(additions.map((a) => a.data.vessel))) {
            const here = additions.filter((a) => a.data.vessel === vessel);
            const first = here.find((a) => arrives(a, name));
            const second = here.find((a) => arrives(a, later));
            if (!first || !second) continue;
            const fault = judge(first, second, here, run);
            if (fault && !mayHaveDone(mixingVerbs, run))
              yield {
                at: fault === "reversed" ? first.spot : second.spot,
                fault,
                name,
                later,
                first,
                second,
                drug,
                fact,
              };
          }
        }
      }
    }
  },
  say: ({ fault, name, later, first, second, drug, fact }) => {
    const where = thingName(first.data.vessel);
    const related = [
      { at: { start: fact.start, end: fact.end, chunk: drug.chunk }, text: "the order is declared here" },
    ];
    const text = {
      reversed: `${name} reaches ${where} at step ${first.step.number}, after ${later} at step ${second.step.number}; it has to go in before. Add ${name} first, mix, then ${later}.`,
      together: `${name} and ${later} reach ${where} together at step ${first.step.number}; ${name} has to go in before. Add ${name} first, mix, then add ${later}.`,
      close: `${later} reaches ${where} at step ${second.step.number}, right after ${name} at step ${first.step.number}, without mixing between. Mix ${where} after ${name}.`,
    };
    return { text: text[fault], related };
  },
});

function arrives({ data }: Addition, drug: string): boolean {
  return data.drugs.includes(drug);
}

function judge(
  first: Addition,
  second: Addition,
  here: readonly Addition[],
  run: Run,
): "reversed" | "together" | "close" | undefined {
  if (first === second) return "together";
  if (here.indexOf(first) > here.indexOf(second)) return "reversed";
  const between = here.slice(here.indexOf(first) + 1, here.indexOf(second));
  if (between.length > 0) return undefined;
  const mixed = run.steps.some(
    (s) =>
      isMixing(s.verb) &&
      s.number > first.step.number &&
      s.number < second.step.number &&
      s.touched.includes(first.data.vessel),
  );
  return mixed ? undefined : "close";
}
