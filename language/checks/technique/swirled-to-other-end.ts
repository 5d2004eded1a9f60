import { happened } from "../../bench/run.ts";
import type { MixingEnd } from "../../bench/verbs/mixing.ts";
import { recipeCheck } from "../check.ts";
import { replaceText } from "../edits.ts";
import { powderExample } from "../example.ts";

export const swirledToOtherEnd = recipeCheck({
  name: "swirled-to-other-end",
  family: "technique",
  severity: "error",
  title: "Mixed until dissolved or clear what stays cloudy, or until suspended what dissolves",
  why: "A powder that is taken for suspended is drawn with lumps in it; who waits for a suspension to become clear waits in vain, or throws it away.",
  source:
    "Azacitidine, directions for the reconstituted product: a uniform, cloudy suspension, not used where it holds large particles (product information as republished, undated)",
  bad: powderExample(["swirl vial until dissolved", "swirl vial until suspended"]),
  good: powderExample(),
  happening: "swirled-to-other-end",
  find: ({ run }) => happened(run, "swirled-to-other-end").map(({ spot, step, data }) => ({ at: spot, step, ...data })),
  say: ({ step, drug, end, nature }) => {
    const done = `Step ${step.number} mixes ${drug} until ${end}`;
    const instead = fitting(end, nature);
    if (end === "suspended")
      return {
        text: `${done}, and its monograph does not call it a suspension: lumps of powder would pass. Write \`until dissolved\`, or state \`nature suspension\` with the drug.`,
      };
    const remedy = instead
      ? `Write \`until ${instead}\``
      : "Say how often it is mixed instead, such as `by inverting 10 times`";
    return { text: `${done}; it is ${natures[nature ?? ""]}, which never becomes clear. ${remedy}.` };
  },
  fixes: ({ at, end, nature }) => {
    const instead = fitting(end, nature);
    return instead ? [{ title: `Write ${instead}`, edits: [replaceText(at, instead)] }] : [];
  },
});

const natures: Readonly<Record<string, string>> = {
  suspension: "a suspension",
  emulsion: "an emulsion",
  "lipid-complex": "a lipid complex",
};

/** What it comes to; an emulsion looks before as it looks afterwards. */
function fitting(end: MixingEnd, nature: string | undefined): MixingEnd | undefined {
  if (end === "suspended") return "dissolved";
  return nature === "emulsion" ? undefined : "suspended";
}
