/** `prime set with 20 mL from bag`. */
import { inBase } from "../../quantities/quantity.ts";
import { verb } from "../verb.ts";

export const prime = verb({
  word: "prime",
  form: "<line:name> with <volume:measure> from <source:name>",
  about: "Fills a line with fluid so that no air is left; for hazardous drugs before the drug is added.",
  act(bench, slots) {
    bench.part(slots.line);
    const source = bench.vessel(slots.source);
    if (!source || slots.volume.quantity?.unit.dimension.key !== "volume") return;
    if (bench.isHazardous(source.liquid)) bench.note("prime-after-drug", slots.source, { vessel: source });
    bench.waste(source, undefined, { volume: inBase(slots.volume.quantity), stated: slots.volume }, slots.volume);
  },
  sentence: (slots) => `Prime ${slots.line.name} with ${slots.volume.written} from ${slots.source.name}.`,
  cautions: [
    {
      text: "Prime with plain fluid before a hazardous drug is added.",
      rows: ["hd-prime-before-drug"],
      when: "hazardous",
    },
  ],
});
