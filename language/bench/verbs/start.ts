/** `start bag`: the container begins to run; nothing may be added afterwards. */
import { verb } from "../verb.ts";

export const start = verb({
  word: "start",
  form: "<bag:name>",
  about: "Starts giving. From here on nothing is added to the container.",
  act(bench, slots, run) {
    const bag = bench.vessel(slots.bag);
    if (!bag) return;
    bag.running = run;
    if (!bag.labelled) bench.note("started-unready", slots.bag, { vessel: bag, lacks: "label" });
    const filled = bench.steps.findLast(({ movements }) => movements.some(({ to }) => to === bag));
    if (filled && !(bench.lastCheck && bench.lastCheck.number > filled.number))
      bench.note("started-unready", slots.bag, { vessel: bag, lacks: "check" });
  },
  sentence: (slots) => `Start ${slots.bag.name}.`,
  cautions: [{ text: "Never add to a container that is already running.", rows: ["no-add-while-hanging"] }],
});
