/** `prime set with 20 mL from bag`, `prime line of each of pumps`. */
import type { NameSlot, Spot } from "../../model/slots.ts";
import { Exact } from "../../quantities/exact.ts";
import { inBase } from "../../quantities/quantity.ts";
import type { Bench } from "../bench.ts";
import { fillOwnLine, fixedLine } from "../lines.ts";
import { millilitres } from "../spoken.ts";
import type { Part, Vessel } from "../things.ts";
import { enterSource, letOut } from "../through-tubing.ts";
import { verb } from "../verb.ts";
import { targets } from "./inject.ts";

export const prime = verb({
  word: "prime",
  form: "(line of [<each?:each of>] <own?:name> | [<each?:each of>] <line?:name> with <volume?:measure> from <source?:name>)",
  about:
    "Fills a line with fluid so that no air is left; for hazardous drugs before the drug is added. The line fixed to an infusor or cassette is filled with its own liquid.",
  moves: true,
  act(bench, slots, run) {
    if (slots.own) {
      for (const vessel of targets(bench, slots.own, slots.each)) {
        watchHazard(bench, vessel, slots.own);
        fillOwnLine(bench, vessel, slots.own);
      }
      return;
    }
    const source = bench.vessel(slots.source!);
    const lines = slots.line ? freeLines(bench, slots.line, slots.each !== undefined) : [];
    if (!source) return;
    watchHazard(bench, source, slots.source!);
    const { volume } = slots;
    if (volume?.quantity?.unit.dimension.key !== "volume") return;
    const asked = inBase(volume.quantity);
    enterSource(bench, source, slots.source!);
    // Of a line that is not known the fluid is let through all the same.
    for (const line of lines.length > 0 ? lines : [undefined]) {
      const out = letOut(bench, source, asked, { at: volume, spot: slots.source! });
      if (!out) return;
      const { taken, moved } = out;
      if (line) line.primed = taken;
      run.moved = (run.moved ?? Exact.zero).plus(moved);
      run.movements.push({ how: "waste", from: source, to: undefined, asked, moved, liquid: taken, spot: volume });
    }
  },
  sentence(slots, run) {
    const each = slots.each ? "each of " : "";
    if (!slots.own) return `Prime ${each}${slots.line?.name} with ${slots.volume?.written} from ${slots.source?.name}.`;
    const holds = run.touched.map((thing) => (thing.is === "vessel" ? fixedLine(thing) : undefined)).find((v) => v);
    return `Fill the line of ${each}${slots.own.name}${holds ? ` (${millilitres(holds)})` : ""} with its own liquid, until no air is left in it.`;
  },
  cautions: [
    {
      text: "Prime with plain fluid before a hazardous drug is added.",
      rows: ["hd-prime-before-drug"],
      when: "hazardous",
    },
  ],
});

function watchHazard(bench: Bench, vessel: Vessel, spot: Spot): void {
  if (bench.isHazardous(vessel.liquid)) bench.note("prime-after-drug", spot, { vessel });
}

/** The line that is primed next; with `each of` all of the set that are free. */
function freeLines(bench: Bench, name: NameSlot, each: boolean): Part[] {
  const first = bench.part(name);
  if (!first || !each) return first ? [first] : [];
  const all = bench.things([name]).flatMap((thing) => (thing.is === "part" ? [thing] : []));
  const free = all.filter((part) => !part.on && !part.discarded);
  return free.length > 0 ? free : [first];
}
