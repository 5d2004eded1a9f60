/** `dissolve vials`, `dissolve vials up to 10 min`. */
import { spoken } from "../spoken.ts";
import { verb } from "../verb.ts";
import { dissolved } from "./mixing.ts";

export const dissolve = verb({
  word: "dissolve",
  form: "<things:names> [up to <time?:measure>]",
  about: "Lets the powder dissolve fully before anything is drawn.",
  act(bench, slots, run) {
    dissolved(bench, slots.things, run);
  },
  sentence: (slots) =>
    `Dissolve the powder in ${spoken(slots.things)}${slots.time ? `, up to ${slots.time.written}` : ""}.`,
  cautions: [{ text: "No particles may be left before the first draw.", rows: ["recon-dissolve-before-draw"] }],
});
