import type { MeasureSlot, NameSlot } from "../../model/slots.ts";
import { nearNames } from "../../quantities/near-names.ts";
import { findUnit } from "../../quantities/unit.ts";
import { declarationCheck } from "../check.ts";
import { replaceText } from "../edits.ts";
import { example } from "../example.ts";
import { didYouMean } from "../showing.ts";

export const orderedContainerNotFinished = declarationCheck<Ordered>({
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
    const named: { at: NameSlot | undefined; dose?: MeasureSlot }[] = [
      ...order.all("dose").map(({ slots }) => ({ at: slots.container, dose: slots.dose })),
      ...order.all("additive").map(({ slots }) => ({ at: slots.container, dose: slots.dose })),
      ...order.all("target").map(({ slots }) => ({ at: slots.container, dose: slots.dose })),
      ...order.all("concentration").map(({ slots }) => ({ at: slots.container })),
      ...order.all("final-volume").map(({ slots }) => ({ at: slots.container })),
      ...order.all("makes").map(({ slots }) => ({ at: slots.what })),
    ];
    const lacking = new Set<string>();
    for (const { at, dose } of named) {
      if (!at || finished.includes(at.name)) continue;
      const stands = declaration.materials.some((m) => m.name.name === at.name);
      // Strength and volume of one container that lacks its preparation are one slip.
      if (stands && lacking.has(at.name)) continue;
      lacking.add(at.name);
      yield { at, stands, finished, ...(stands || !dose?.unit ? {} : perUnit(dose, at)) };
    }
  },
  say: ({ at, stands, finished, per }) => ({
    text: per
      ? `The order is per \`${at.name}\`, which is a unit and no container. Write ${per.written} per ${finished.join(" or ")}.`
      : isTime(at.name)
        ? `The order is per \`${at.name}\`. A time has its figure: write \`per 1 ${at.name}\`.`
        : stands
          ? `The order is per \`${at.name}\`, but what is finished is ${finished.join(", ")}. Order per ${finished.join(" or ")}, or write \`preparation ${at.name}\`.`
          : `The order is per \`${at.name}\`, which does not stand in materials.${didYouMean(nearNames(at.name, finished))} Name the finished container: ${finished.join(", ")}.`,
  }),
  fixes: ({ at, finished, per }) =>
    per
      ? finished.map((name) => ({
          title: `Write ${per.written} per ${name}`,
          edits: [replaceText({ start: per.start, end: at.end }, `${per.written} per ${name}`)],
        }))
      : (isTime(at.name) ? [`1 ${at.name}`] : finished).map((name) => ({
          title: `Write ${name}`,
          edits: [replaceText(at, name)],
        })),
});

interface Ordered {
  at: NameSlot;
  stands: boolean;
  finished: string[];
  /** `4 g per kg` as one unit. */
  per?: { written: string; start: number };
}

/** A dose by body weight or surface whose unit is written apart; to name a container in place of `kg` would order another dose. */
function perUnit({ number, unit, start }: MeasureSlot, { name }: NameSlot): Pick<Ordered, "per"> {
  const joined = `${unit?.text}/${name}`;
  const key = findUnit(joined).unit?.dimension.key ?? "";
  return /\/(?:bodyWeight|area)$/.test(key) ? { per: { written: `${number.text} ${joined}`, start } } : {};
}

function isTime(name: string): boolean {
  const { unit } = findUnit(name);
  return unit?.dimension.key === "time" || unit?.dimension.key === "calendarDays";
}
