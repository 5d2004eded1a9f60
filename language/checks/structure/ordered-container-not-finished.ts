import type { NameSlot } from "../../model/slots.ts";
import { nearNames } from "../../quantities/near-names.ts";
import { findUnit } from "../../quantities/unit.ts";
import { libraryCheck } from "../check.ts";
import { replaceText } from "../edits.ts";
import { example } from "../example.ts";
import { didYouMean } from "../showing.ts";

export const orderedContainerNotFinished = libraryCheck<{ at: NameSlot; stands: boolean; finished: string[] }>({
  name: "ordered-container-not-finished",
  family: "structure",
  severity: "error",
  title: "An order for a container that is not what leaves the bench",
  why: "A dose per something that is never finished is compared with nothing.",
  source: "common practice",
  bad: example(["    dose            4 g per bag\n", "    dose            4 g per bags\n"]),
  good: example(),
  *find({ declaration }) {
    if (declaration.kind !== "recipe") return;
    const order = declaration.order;
    // A recipe without a preparation is told as incomplete.
    if (!order || declaration.preparations.length === 0) return;
    const finished = declaration.preparations.map((p) => p.name.name);
    const named = [
      ...order.all("dose").map((f) => f.slots.container),
      ...order.all("additive").map((f) => f.slots.container),
      ...order.all("target").map((f) => f.slots.container),
      ...order.all("makes").map((f) => f.slots.what),
    ];
    for (const at of named) {
      if (!at || finished.includes(at.name)) continue;
      yield { at, stands: declaration.materials.some((m) => m.name.name === at.name), finished };
    }
  },
  say: ({ at, stands, finished }) => ({
    text: isTime(at.name)
      ? `The order is per \`${at.name}\`. A time has its figure: write \`per 1 ${at.name}\`.`
      : stands
        ? `The order is per \`${at.name}\`, but what is finished is ${finished.join(", ")}. Order per ${finished.join(" or ")}, or write \`preparation ${at.name}\`.`
        : `The order is per \`${at.name}\`, which does not stand in materials.${didYouMean(nearNames(at.name, finished))} Name the finished container: ${finished.join(", ")}.`,
  }),
  fixes: ({ at, finished }) =>
    (isTime(at.name) ? [`1 ${at.name}`] : finished).map((name) => ({
      title: `Write ${name}`,
      edits: [replaceText(at, name)],
    })),
});

function isTime(name: string): boolean {
  const { unit } = findUnit(name);
  return unit?.dimension.key === "time" || unit?.dimension.key === "calendarDays";
}
