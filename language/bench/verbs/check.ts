/** `check label and expiry of …`: the containers are read before they are used. */
import { spoken } from "../spoken.ts";
import { verb } from "../verb.ts";

export const check = verb({
  word: "check",
  form: "<what:label and expiry|label|expiry> of <things:names>",
  about: "Reads name, strength, lot and expiry of containers before they are used.",
  act(bench, slots, run) {
    const { choice } = slots.what;
    for (const thing of bench.things(slots.things)) {
      if (thing.is !== "vessel") continue;
      if (choice !== "expiry") thing.checked ??= run;
      if (choice !== "label") thing.expiryChecked ??= run;
    }
  },
  sentence: (slots) => `Check ${slots.what.choice} of ${spoken(slots.things)}.`,
  cautions: [{ text: "Read the label three times: when taking it, when using it, when putting it aside." }],
});
