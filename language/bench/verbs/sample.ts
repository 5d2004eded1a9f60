/** `sample 1 mL from bag using syringe`: a test sample, which lessens the batch. */
import { inBase } from "../../quantities/quantity.ts";
import { drawUp } from "../drawing.ts";
import { verb } from "../verb.ts";

export const sample = verb({
  word: "sample",
  form: "<volume:measure> from <source:name> using <syringe:name>",
  about: "Takes a test sample. Mix before.",
  moves: true,
  act(bench, slots) {
    const source = bench.vessel(slots.source);
    const syringe = bench.syringe(slots.syringe);
    if (!source || !syringe || slots.volume.quantity?.unit.dimension.key !== "volume") return;
    drawUp(
      bench,
      [source],
      syringe,
      { volume: inBase(slots.volume.quantity), stated: slots.volume },
      slots.volume,
      undefined,
    );
  },
  sentence: (slots) => `Take a sample of ${slots.volume.written} from ${slots.source.name} with ${slots.syringe.name}.`,
  cautions: [{ text: "Label the sample at once.", rows: ["label-at-once"] }],
});
