/** Programs by their seed: a shape, its figures, and what is stated beside them. Right by the oracle's own reading. */
import { CannotBeDone } from "./bench-top.ts";
import { withClaims, withDose } from "./claims.ts";
import { Draft } from "./draft.ts";
import { faultsOf } from "./faults.ts";
import type { Program } from "./program.ts";
import { Random } from "./random.ts";
import * as patients from "./shapes-for-patients.ts";
import * as empty from "./shapes-from-empty.ts";
import * as bags from "./shapes-into-bags.ts";
import * as drugs from "./shapes-of-several-drugs.ts";
import * as lines from "./shapes-through-lines.ts";

const shapes: readonly (readonly [name: string, make: (draft: Draft) => void])[] = [
  ...Object.entries(bags),
  ...Object.entries(empty),
  ...Object.entries(patients),
  ...Object.entries(drugs),
  ...Object.entries(lines),
];

export const shapeNames = shapes.map(([name]) => name);

/** How many sets of figures of one seed may come to nothing, such as a bag too small, before that counts as a fault. */
const mostTries = 60;

export function program(seed: number): Program {
  const [name, make] = shapes[seed % shapes.length]!;
  for (let attempt = 0; attempt < mostTries; attempt++) {
    const random = new Random(seed * mostTries + attempt);
    try {
      const draft = new Draft(name, random);
      make(draft);
      const { random: _, rows, ...made } = draft;
      const plain = withDose(made);
      if (faultsOf(plain).length > 0) continue;
      return withClaims(plain, random, rows);
    } catch (stopped) {
      if (!(stopped instanceof RangeError || stopped instanceof CannotBeDone)) throw stopped;
    }
  }
  throw new Error(`no program of shape ${name} comes of seed ${seed}`);
}
