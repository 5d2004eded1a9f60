/** `note "…"`: clinical words that are printed, compared and approved. */
import { verb } from "../verb.ts";

export const note = verb({
  word: "note",
  form: "<text:text>",
  about: "Words that are printed between the steps, compared and approved.",
  act() {},
  sentence: (slots) => slots.text.text,
});
