/** `prime set with 20 mL from bag`, `prime line of pump`. */
import { inBase } from "../../quantities/quantity.ts";
import { waste } from "../drawing.ts";
import { fillOwnLine, fixedLine } from "../lines.ts";
import { takePart } from "../liquid.ts";
import { millilitres } from "../spoken.ts";
import { verb } from "../verb.ts";

export const prime = verb({
  word: "prime",
  form: "(line of <own?:name> | <line?:name> with <volume?:measure> from <source?:name>)",
  about:
    "Fills a line with fluid so that no air is left; for hazardous drugs before the drug is added. The line fixed to an infusor or cassette is filled with its own liquid.",
  moves: true,
  act(bench, slots) {
    const source = bench.vessel((slots.own ?? slots.source)!);
    const part = slots.line && bench.part(slots.line);
    if (!source) return;
    if (bench.isHazardous(source.liquid))
      bench.note("prime-after-drug", (slots.own ?? slots.source)!, { vessel: source });
    if (slots.own) {
      fillOwnLine(bench, source, slots.own);
      return;
    }
    const { volume } = slots;
    if (volume?.quantity?.unit.dimension.key !== "volume") return;
    const before = source.liquid;
    const moved = waste(bench, source, undefined, { volume: inBase(volume.quantity), stated: volume }, volume);
    if (part && moved.isPositive()) part.primed = takePart(before, moved).taken;
  },
  sentence(slots, run) {
    if (!slots.own) return `Prime ${slots.line?.name} with ${slots.volume?.written} from ${slots.source?.name}.`;
    const holds = run.touched.map((thing) => (thing.is === "vessel" ? fixedLine(thing) : undefined)).find((v) => v);
    return `Fill the line of ${slots.own.name}${holds ? ` (${millilitres(holds)})` : ""} with its own liquid, until no air is left in it.`;
  },
  cautions: [
    {
      text: "Prime with plain fluid before a hazardous drug is added.",
      rows: ["hd-prime-before-drug"],
      when: "hazardous",
    },
  ],
});
