import type { NumberSlot, Spot } from "../../model/slots.ts";
import { recipeCheck } from "../check.ts";
import { example } from "../example.ts";

const light = "  light          not-sensitive\n";

export const denseMixingNotSaid = recipeCheck<{ at: Spot; number: number; vessel: string; drug: string }>({
  name: "dense-mixing-not-said",
  family: "technique",
  severity: "warning",
  title: "A dense concentrate is added and the step does not say how often to mix",
  why: "A dense concentrate lies at the port, and the first part of the infusion would be nearly undiluted.",
  source:
    "Factors affecting the concentration of electrolyte infusions prepared from stock solutions (Postgrad Med J 87:83-88, 2011, abstract)",
  rows: ["technique-rules mix-dense"],
  bad: example([light, `${light}  dense          yes\n`], ["inverting 10 times", "inverting"]),
  good: example([light, `${light}  dense          yes\n`]),
  *find({ runs }) {
    for (const run of runs) {
      for (const step of run.steps) {
        if (step.skipped || step.verb !== "mix" || (step.slots as { times?: NumberSlot }).times) continue;
        for (const [vessel, liquid] of step.after) {
          const drug = liquid.drugs.find(
            (d) => run.setup.drugs.get(d)?.facts.one("dense")?.slots.answer.choice === "yes",
          );
          if (drug !== undefined && liquid.stocks.length > 1)
            yield { at: step.step, number: step.number, vessel: vessel.name, drug };
        }
      }
    }
  },
  say: ({ number, vessel, drug }) => ({
    text: `${drug} is dense and layers at the port, and step ${number} does not say how often ${vessel} is turned over. Say it, such as \`mix ${vessel} by inverting 10 times\`.`,
  }),
});
