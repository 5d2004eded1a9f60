/** `wait 2 min`, `wait until dry`, `wait until foam has settled`. */
import { verb } from "../verb.ts";

export const wait = verb({
  word: "wait",
  form: "(<time?:measure> | until <event?:dry|foam has settled|at room temperature>)",
  about: "Waits a time, or until something has happened.",
  act() {},
  sentence: (slots) => (slots.time ? `Wait ${slots.time.written}.` : `Wait until ${slots.event?.choice}.`),
});
