import type { Problem } from "../../model/facts.ts";
import { chunkCheck } from "../check.ts";
import { replaceText } from "../edits.ts";
import { example, standardAnd } from "../example.ts";
import { near, problemsNamed, word } from "../problems.ts";
import { didYouMean } from "../showing.ts";

export const unknownDeclaration = chunkCheck({
  name: "unknown-declaration",
  family: "structure",
  severity: "error",
  title: "A declaration that begins with an unknown word",
  why: "What stands in it is not used.",
  source: "common practice",
  bad: standardAnd(`vial spare {
  drug       magnesium-sulfate
  container  vial
  strength   500 mg/mL
  fill       10 mL
  doses      single
  storage    room-temperature
}
`),
  good: example(),
  find: ({ reading }) => problemsNamed(reading, "unknown-declaration"),
  say: ({ problem }) => ({
    text: `\`${word(problem, "word")}\` is no declaration; what stands in it is not used.${didYouMean(meant(problem))}`,
  }),
  fixes: ({ problem }) =>
    meant(problem)
      .slice(0, 1)
      .map((name) => ({ title: `Write ${name}`, edits: [replaceText(problem, name)] })),
});

/** Words of the trade stand before words of near spelling. Common practice, from memory. */
function meant(problem: Problem): string[] {
  const own = words.get(word(problem, "word").toLowerCase());
  return own === undefined ? near(problem) : [own];
}

const words: ReadonlyMap<string, string> = new Map(
  Object.entries({
    site: "department hospital pharmacy policy unit ward",
    drug: "active ingredient medicine molecule monograph substance",
    fluid: "base diluent solution solvent vehicle",
    stock: "ampoule ampule article bag bottle container item medication pack product vial",
    device: "consumable equipment filter needle supply syringe",
    lots: "batch batches lot shelf",
    reference: "citation guide ref source",
    bands: "banding dose-bands",
    recipe: "formula formulation master procedure worksheet",
  }).flatMap(([own, others]) => others.split(" ").map((other): [string, string] => [other, own])),
);
