import { happened } from "../../bench/run.ts";
import { recipeCheck } from "../check.ts";
import { replaceText } from "../edits.ts";
import { powderExample } from "../example.ts";

const ends = { dissolved: "suspended", suspended: "dissolved" } as const;

export const swirledToOtherEnd = recipeCheck({
  name: "swirled-to-other-end",
  family: "technique",
  severity: "error",
  title: "Swirled until dissolved what stays a suspension, or the other way round",
  why: "A powder that is taken for suspended is drawn with lumps in it; who waits for a suspension to become clear waits in vain, or throws it away.",
  source:
    "Azacitidine, directions for the reconstituted product: a uniform, cloudy suspension, not used where it holds large particles (product information as republished, undated)",
  bad: powderExample(["swirl vial until dissolved", "swirl vial until suspended"]),
  good: powderExample(),
  happening: "swirled-to-other-end",
  find: ({ run }) => happened(run, "swirled-to-other-end").map(({ spot, step, data }) => ({ at: spot, step, ...data })),
  say: ({ step, drug, end }) => ({
    text:
      end === "suspended"
        ? `Step ${step.number} swirls ${drug} until suspended, and its monograph does not call it a suspension: lumps of powder would pass. Write \`until dissolved\`, or state \`nature suspension\` with the drug.`
        : `Step ${step.number} swirls ${drug} until dissolved; it is a suspension, which never becomes clear. Write \`until suspended\`.`,
  }),
  fixes: ({ at, end }) => [{ title: `Write ${ends[end]}`, edits: [replaceText(at, ends[end])] }],
});
