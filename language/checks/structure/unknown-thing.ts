import { happened } from "../../bench/run.ts";
import type { ChunkReading } from "../../model/declaration.ts";
import { nearNames } from "../../model/near.ts";
import type { Line } from "../../syntax/tree.ts";
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
  source:
    "Master formulation and compounding records (study page restating USP <795> and <797> 2023, February 2024, list of the master record): every supply used in a step is listed",
  rows: ["record-elements mfr-instructions"],
  bad: example(["    tap mag\n", "    tap magg\n"]),
  good: example(),
  happening: "unknown-thing",
  find: ({ run, reading }) =>
    happened(run, "unknown-thing")
      // A line of materials that begins with the name but cannot be read has its own finding; told at every step it would drown.
      .filter((h) => !materialsLines(reading).some((line) => line.tokens[0]?.text === h.data.name))
      .map((h) => ({ at: h.spot, name: h.data.name, step: h.step })),
  say: ({ name, step }, { run }) => ({
    text: `Step ${step.number} names \`${name}\`, which does not stand in materials.${didYouMean(nearNames(name, run.groups.keys()))} Name one of the materials, or add it there.`,
  }),
  fixes: ({ at, name }, { run }) =>
    nearNames(name, run.groups.keys()).map((near) => ({ title: `Write ${near}`, edits: [replaceText(at, near)] })),
});

function materialsLines(reading: ChunkReading): Line[] {
  return reading.blocks.flatMap((recipe) =>
    recipe.body.flatMap((block) =>
      block.kind === "block" && block.head.tokens[0]?.text === "materials"
        ? block.body.filter((e) => e.kind === "line")
        : [],
    ),
  );
}
