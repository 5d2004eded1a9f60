import { happened } from "../../bench/run.ts";
import { nearNames } from "../../model/near.ts";
import { recipeCheck } from "../check.ts";
import { replaceText } from "../edits.ts";
import { example } from "../example.ts";
import { didYouMean } from "../showing.ts";

export const unknownThing = recipeCheck({
  name: "unknown-thing",
  family: "structure",
  severity: "error",
  title: "A step names something that does not stand in materials",
  why: "All that is touched stands in materials, so that the sheet can list it.",
  source: "USP <797> 2023, master record: every supply used in a step is listed (study page)",
  rows: ["record-elements mfr-instructions"],
  bad: example(["    tap mag\n", "    tap magg\n"]),
  good: example(),
  find: ({ run }) => happened(run, "unknown-thing").map((h) => ({ at: h.spot, name: h.data.name, step: h.step })),
  say: ({ name, step }, { run }) => ({
    text: `Step ${step.number} names \`${name}\`, which does not stand in materials.${didYouMean(nearNames(name, run.groups.keys()))} Name one of the materials, or add it there.`,
  }),
  fixes: ({ at, name }, { run }) =>
    nearNames(name, run.groups.keys()).map((near) => ({ title: `Write ${near}`, edits: [replaceText(at, near)] })),
});
