/** `sterilise bag by steam`, `sterilise bag by steam "121 C for 15 min, load 7"`. */
import { spoken } from "../spoken.ts";
import { verb } from "../verb.ts";

export const sterilise = verb({
  word: "sterilise",
  form: "<things:names> by <method:steam|dry heat|gas|radiation> [<cycle?:text>]",
  about: "Sterilises the filled and closed container as a whole; the cycle is printed as it is written.",
  act(bench, slots, run) {
    for (const vessel of bench.vessels(slots.things)) vessel.sterilised = run;
  },
  sentence: (slots) =>
    `Sterilise ${spoken(slots.things)} by ${slots.method.choice}${slots.cycle ? `: ${slots.cycle.text}` : ""}. Record the cycle.`,
});
