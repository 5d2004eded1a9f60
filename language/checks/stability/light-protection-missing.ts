import { recipeCheck } from "../check.ts";
import { stepBefore } from "../edits.ts";
import { example } from "../example.ts";
import { finished } from "./stable-rows.ts";

const always = ["  light          not-sensitive\n", "  light          protect-always\n"] as [string, string];

export const lightProtectionMissing = recipeCheck({
  name: "light-protection-missing",
  family: "stability",
  severity: "warning",
  title: "A drug that light spoils leaves without a cover",
  why: "A light-sensitive drug breaks down while it is stored or runs.",
  source: "Furosemide how-supplied text (FDA-approved label as republished, undated, storage)",
  rows: ["technique-rules light-protect"],
  bad: example(always),
  good: example(always, ["    label bag\n", "    protect bag from light\n    label bag\n"]),
  *find({ recipe, runs }) {
    for (const run of runs) {
      if (run.plan.broken) continue;
      for (const { vessel, drugs } of finished(run)) {
        const drug = drugs.find((d) => d.facts.one("light")?.slots.need.choice === "protect-always");
        if (!drug || vessel.covered) continue;
        const preparation = recipe.preparations.find((p) => p.name.name === vessel.name);
        yield { at: preparation?.name ?? vessel.material.name, drug, vessel, run };
      }
    }
  },
  say: ({ drug, vessel }) => ({
    text: `${drug.name.name} in ${vessel.name} has to be kept from light at all times, and no step covers ${vessel.name}. Add \`protect ${vessel.name} from light\`.`,
    related: [
      {
        at: { start: drug.facts.one("light")!.start, end: drug.facts.one("light")!.end, chunk: drug.chunk },
        text: "said here",
      },
    ],
  }),
  fixes: ({ vessel, run }, { chunk }) => {
    const label = run.steps.find((s) => s.verb === "label" && s.touched.includes(vessel));
    if (!label) return [];
    return [
      {
        title: `Cover ${vessel.name} before it is labelled`,
        edits: [stepBefore(chunk.text, label.step, `protect ${vessel.name} from light`)],
      },
    ];
  },
});
