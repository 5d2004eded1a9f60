/** `start bag`: the container begins to run; nothing may be added afterwards. */
import { verb } from "../verb.ts";

export const start = verb({
  word: "start",
  form: "<bag:name>",
  about: "Starts giving. From here on nothing is added to the container.",
  act(bench, slots, run) {
    const bag = bench.vessel(slots.bag);
    if (bag) bag.running = run;
  },
  sentence: (slots) => `Start ${slots.bag.name}.`,
  cautions: [{ text: "Never add to a container that is already running.", rows: ["no-add-while-hanging"] }],
});
