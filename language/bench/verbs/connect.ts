/** `connect syringe-a to syringe-b using connector`, `connect set to bag`, `connect sets to each of bags`. */
import type { NameSlot, Spot } from "../../model/slots.ts";
import type { Bench } from "../bench.ts";
import { watchJoined, watchLine, watchUse } from "../fitting-parts.ts";
import { connectLine } from "../lines.ts";
import type { StepRun } from "../step-run.ts";
import type { Part, Vessel } from "../things.ts";
import { verb } from "../verb.ts";
import { onTip, putOn } from "./attach.ts";
import { targets } from "./inject.ts";

interface ConnectSlots {
  one: NameSlot;
  other: NameSlot;
  part?: NameSlot;
  each?: Spot;
}

/** A connector of this name that stands on one of the two already, and joins it to nothing yet. */
function wornBy(both: readonly Vessel[], name: string): Part | undefined {
  return both.flatMap(({ attached }) => attached).find((part) => part.name === name && !part.joins);
}

/** Joins one container or part to one container. */
function join(bench: Bench, slots: ConnectSlots, one: Vessel | undefined, other: Vessel, run: StepRun): void {
  if (!one) {
    const part = bench.part(slots.one);
    if (!part) return;
    watchLine(bench, part, other, slots.one);
    putOn(bench, part, other, slots.one);
    connectLine(bench, part, other, slots.one);
    return;
  }
  const bags = ["bag", "empty-bag"];
  if (bags.includes(one.kind) && bags.includes(other.kind))
    bench.note("bags-in-series", slots.other, { first: one, second: other });
  watchJoined(bench, [
    [one, slots.one],
    [other, slots.other],
  ]);
  run.result = other;
  const worn = slots.part && wornBy([one, other], slots.part.name);
  if (worn) {
    const joined = worn.on === one ? other : one;
    const by = onTip(bench, joined);
    if (by) bench.note("tip-occupied", slots.part!, { syringe: joined, by, part: worn });
    worn.joins = joined;
    return;
  }
  const part = slots.part ? bench.part(slots.part) : undefined;
  if (part) {
    watchUse(bench, part, "joins", slots.part!);
    putOn(bench, part, one, slots.part!);
    part.joins = other;
  } else if (slots.part) one.unknownParts.push(slots.part.name);
}

/** For each container what is joined to it: one of as many, or the only one there is. */
function partners(bench: Bench, { one, each }: ConnectSlots, count: number): Vessel[] | undefined {
  const found = each ? bench.vessels([one]) : [bench.vessel(one)].flatMap((vessel) => vessel ?? []);
  if (found.length === count) return found;
  if (found.length > 1) {
    bench.note("not-each-of", one, { name: one.name, count: found.length, each: false });
    bench.unknown = true;
  }
  return found[0] && Array.from({ length: count }, () => found[0]!);
}

/** There is just one of it in `materials`. */
function isSingle(bench: Bench, name: NameSlot | undefined): boolean {
  return name !== undefined && bench.group(name)?.things.length === 1;
}

export const connect = verb({
  word: "connect",
  form: "<one:name> to [<each?:each of>] <other:name> [using <part?:name>]",
  about:
    "Joins two syringes by a connector, or a giving set to a bag. With `each of` every container of a set gets one of as many sets.",
  act(bench, slots, run) {
    const group = bench.group(slots.one);
    const others = targets(bench, slots.other, slots.each);
    if (!group) return;
    const first = group.things[0];
    if (others.length === 0) {
      // Whether the connector is on it, nobody knows.
      const part = slots.part ?? (first?.is === "part" ? slots.one : undefined);
      if (part) bench.part(part);
      if (slots.part && first?.is === "vessel") bench.vessel(slots.one)?.unknownParts.push(slots.part.name);
      return;
    }
    if (first?.is === "part") {
      for (const other of others) join(bench, slots, undefined, other, run);
      return;
    }
    // What a set holds of which nothing is known would count in the ordered volume.
    if (!first && bench.options.line) bench.unknown = true;
    const ones = partners(bench, slots, others.length);
    const [one] = ones ?? [];
    if (one && others.length > 1 && ones!.every((each) => each === one) && isSingle(bench, slots.part)) {
      // One connector serves them in turn: it stays on the one, and its other end is open for each.
      const part = bench.part(slots.part!);
      if (part) putOn(bench, part, one, slots.part!);
      run.result = others.at(-1);
      return;
    }
    others.forEach((other, i) => {
      const one = ones?.[i];
      if (one) join(bench, slots, one, other, run);
    });
  },
  sentence: (slots) =>
    `Connect ${slots.one.name} to ${slots.each ? "each of " : ""}${slots.other.name}${slots.part ? ` with ${slots.part.name}` : ""}.`,
  cautions: [{ text: "Bags are never joined in series.", rows: ["no-series"], when: "bag" }],
});
