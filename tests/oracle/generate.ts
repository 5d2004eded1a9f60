/** Programs by their seed: a shape, its figures, and what is stated beside them. Right by the oracle's own reading. */
import { CannotBeDone } from "./bench-top.ts";
import { withClaims, withDose } from "./claims.ts";
import { Draft } from "./draft.ts";
import { faultsOf } from "./faults.ts";
import type { Program } from "./program.ts";
import { Random } from "./random.ts";
import * as empty from "./shapes-from-empty.ts";
import * as bags from "./shapes-into-bags.ts";

const shapes: readonly (readonly [name: string, make: (draft: Draft) => void])[] = [
  ...Object.entries(bags),
  ...Object.entries(empty),
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
      const { shape, drugs, fluids, stocks, materials, order, actions, final, preparation, intermediates } = draft;
      const plain = withDose({
        shape,
        drugs,
        fluids,
        stocks,
        materials,
        order,
        actions,
        final,
        preparation,
        intermediates,
      });
      if (faultsOf(plain).length > 0) continue;
      return withClaims(plain, random);
    } catch (stopped) {
      if (!(stopped instanceof RangeError || stopped instanceof CannotBeDone)) throw stopped;
    }
  }
  throw new Error(`no program of shape ${name} comes of seed ${seed}`);
}
