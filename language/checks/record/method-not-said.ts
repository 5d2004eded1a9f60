import { writtenCheck } from "../check.ts";
import { example } from "../example.ts";

export const methodNotSaid = writtenCheck({
  name: "method-not-said",
  family: "record",
  severity: "error",
  title: "An order with a diluent that does not say how the container is made up",
  why: "Adding to the bag, taking the volume out first and building from an empty bag give three different strengths.",
  source: "Section 14 - Overfills (public study cards, undated, practitioner-based methods)",
  rows: ["technique-rules additive-volume-method"],
  bad: example(["    method          add-to-bag\n", ""]),
  good: example(),
  *find({ recipe }) {
    const { order } = recipe;
    const diluent = order?.one("diluent") ?? order?.one("diluent-volume");
    if (order && diluent && !order.one("method") && !order.isUnread("method")) yield { at: diluent };
  },
  say: () => ({
    text: "The order names a diluent and no method. Add `method` with add-to-bag, withdraw-first, withdraw-first-with-overfill or build-from-empty, or take the diluent out and say undiluted.",
  }),
});
