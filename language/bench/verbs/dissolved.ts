/** What swirling and dissolving have in common: the powder of each vial is in solution afterwards. */

import type { NameSlot } from "../../model/slots.ts";
import type { Bench } from "../bench.ts";
import type { StepRun } from "../step-run.ts";

export function dissolved(bench: Bench, names: readonly NameSlot[], run: StepRun): void {
  for (const name of names) {
    for (const vessel of bench.vessels([name])) {
      if (!vessel.undissolved && !vessel.unmixed && !bench.unknown) bench.note("swirled-nothing", name, { vessel });
      vessel.undissolved = undefined;
      vessel.unmixed = undefined;
      vessel.mixed = run;
      run.result = vessel;
    }
  }
}
