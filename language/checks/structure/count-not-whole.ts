import type { NumberSlot } from "../../model/slots.ts";
import { declarationCheck } from "../check.ts";
import { example } from "../example.ts";

export const countNotWhole = declarationCheck<{ at: NumberSlot }>({
  name: "count-not-whole",
  family: "structure",
  severity: "error",
  title: "A number of containers that cannot be counted",
  why: "Containers are counted one by one; a part of one is a slip of the decimal point.",
  source: "common practice",
  bad: example(["    bag          saline-bag-100", "    bag          0.5 x saline-bag-100"]),
  good: example(),
  *find({ declaration }) {
    if (declaration.kind !== "recipe") return;
    const counts = [
      ...declaration.materials.map((m) => m.count),
      ...(declaration.order?.all("makes") ?? []).map((f) => f.slots.count),
    ];
    for (const at of counts) {
      if (at?.value && !(at.value.isWhole() && at.value.isPositive())) yield { at };
    }
  },
  say: ({ at }) => ({ text: `${at.written} is no number of containers. Write a whole number, such as 1 or 4.` }),
});
