/**
 * Recipes for the benchmark, made from a seed: the same seed gives the same library on every machine. About 2 % carry one
 * planted fault each.
 */
import { generatedDrugs, generatedShared } from "./generated-library.ts";
import { ampouleToBag, type Choices, powderToBag, type Shape, twoDrugs, vialToBag } from "./generated-shapes.ts";
import { batchOfBags, byWeight, serialDilution, syringePump } from "./generated-shapes-measured.ts";

/** Of forty recipes so many have a shape: plain additions most of all, a dose by weight about as often as in the samples. */
const shares: readonly [Shape, number][] = [
  [ampouleToBag, 9],
  [vialToBag, 8],
  [powderToBag, 8],
  [twoDrugs, 5],
  [syringePump, 4],
  [serialDilution, 3],
  [batchOfBags, 2],
  [byWeight, 1],
];
const shapes: readonly Shape[] = shares.flatMap(([shape, share]) => Array.from({ length: share }, () => shape));

/** Faults that reviewers meet: each changes what it finds in a right recipe, in a way that some check tells. */
const faults: readonly [pattern: RegExp, to: string][] = [
  [/\n {4}disinfect bags?\n/, "\n"],
  [/\n {4}replace filter on syringe with needle\n/, "\n"],
  [/ {2}= (\d+) mL/, "  = $1.5 mL"],
  [/\n {4}mix (\w+) by/, "\n    mixx $1 by"],
  [/\n {4}label bag\n/, "\n"],
  [/infuse-over {5}(\d+) h/, "infuse-over     $1hrs"],
  [/ {4}form {12}\S+\n/, ""],
  [/-18-gauge\n/, "-81-gauge\n"],
  [/ mg per (bags?|syringe)\n/, " mgs per $1\n"],
];

/** Mulberry32: 32 bits of state, from 0 up to 1. */
export function seeded(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let t = Math.imul(state ^ (state >>> 15), state | 1);
    t = (t + Math.imul(t ^ (t >>> 7), t | 61)) ^ t;
    return ((t ^ (t >>> 14)) >>> 0) / 2 ** 32;
  };
}

export interface GeneratedLibrary {
  /** Path relative to the library's folder, and text. */
  files: [file: string, text: string][];
  /** Files of recipes that carry a planted fault. */
  faulty: string[];
}

export interface GenerateOptions {
  seed: number;
  recipes: number;
  /** Share of faulty recipes, from 0 to 1. */
  faulty: number;
}

export function generate({ seed, recipes, faulty: share }: GenerateOptions): GeneratedLibrary {
  const random = seeded(seed);
  const files = generatedShared();
  const faulty: string[] = [];
  for (let number = 0; number < recipes; number++) {
    const [shape, choices] = chosen(random, number);
    let text = shape(choices);
    const file = `recipes/${choices.drug.name}/${choices.name}.misce`;
    if (random() < share) {
      text = withFault(text, random);
      faulty.push(file);
    }
    files.push([file, text]);
  }
  return { files, faulty };
}

function chosen(random: () => number, number: number): [Shape, Choices] {
  const between = (low: number, high: number) => low + Math.floor(random() * (high - low + 1));
  const pick = <T>(from: readonly T[]): T => from[Math.floor(random() * from.length)]!;
  const at = between(0, generatedDrugs.length - 1);
  const drug = generatedDrugs[at]!;
  const partner = generatedDrugs[at % 2 === 0 ? at + 1 : at - 1]!;
  const shape = pick(shapes);
  return [shape, { name: `${drug.name}-${number + 1}`, drug, partner, between, pick }];
}

function withFault(text: string, random: () => number): string {
  const fitting = faults.filter(([pattern]) => pattern.test(text));
  const [pattern, to] = fitting[Math.floor(random() * fitting.length)]!;
  return text.replace(pattern, to);
}
