/** `connect syringe-a to syringe-b using connector`, `connect set to bag`. */
import { connectLine } from "../lines.ts";
import type { Part, Vessel } from "../things.ts";
import { verb } from "../verb.ts";
import { onTip, putOn } from "./attach.ts";

/** A connector of this name that stands on one of the two already, and joins it to nothing yet. */
function wornBy(both: readonly Vessel[], name: string): Part | undefined {
  return both.flatMap(({ attached }) => attached).find((part) => part.name === name && !part.joins);
}

export const connect = verb({
  word: "connect",
  form: "<one:name> to <other:name> [using <part?:name>]",
  about: "Joins two syringes by a connector, or a giving set to a bag.",
  act(bench, slots, run) {
    const group = bench.group(slots.one);
    const other = bench.vessel(slots.other);
    if (!group) return;
    const first = group.things[0];
    if (!other) {
      // Whether the connector is on it, nobody knows.
      const part = slots.part ?? (first?.is === "part" ? slots.one : undefined);
      if (part) bench.part(part);
      if (slots.part && first?.is === "vessel") bench.vessel(slots.one)?.unknownParts.push(slots.part.name);
      return;
    }
    if (first?.is === "part") {
      const part = bench.part(slots.one);
      if (part) {
        putOn(bench, part, other, slots.one);
        connectLine(bench, part, other, slots.one);
      }
      return;
    }
    // What a set holds of which nothing is known would count in the ordered volume.
    if (!first && bench.options.line) bench.unknown = true;
    const one = bench.vessel(slots.one);
    if (!one) return;
    const bags = ["bag", "empty-bag"];
    if (bags.includes(one.kind) && bags.includes(other.kind))
      bench.note("bags-in-series", slots.other, { first: one, second: other });
    const worn = slots.part && wornBy([one, other], slots.part.name);
    if (worn) {
      const joined = worn.on === one ? other : one;
      const by = onTip(bench, joined);
      if (by) bench.note("tip-occupied", slots.part!, { syringe: joined, by, part: worn });
      worn.joins = joined;
      run.result = other;
      return;
    }
    const part = slots.part ? bench.part(slots.part) : undefined;
    if (part) {
      putOn(bench, part, one, slots.part!);
      part.joins = other;
    } else if (slots.part) one.unknownParts.push(slots.part.name);
    run.result = other;
  },
  sentence: (slots) =>
    `Connect ${slots.one.name} to ${slots.other.name}${slots.part ? ` with ${slots.part.name}` : ""}.`,
  cautions: [{ text: "Bags are never joined in series.", rows: ["no-series"], when: "bag" }],
});
