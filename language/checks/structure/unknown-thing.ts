import type { Happening } from "../../bench/happenings.ts";
import { happened } from "../../bench/run.ts";
import { nearNames } from "../../model/near.ts";
import { recipeCheck } from "../check.ts";
import { replaceText } from "../edits.ts";
import { example } from "../example.ts";
import { didYouMean } from "../showing.ts";
import { wordsNotRead } from "../unread-materials.ts";

export const unknownThing = recipeCheck({
  name: "unknown-thing",
  family: "structure",
  severity: "error",
  title: "A step names something that does not stand in materials",
  why: "All that is touched stands in materials, so that the sheet can list it.",
  source:
    "Master formulation and compounding records (study page restating USP <795> and <797> 2023, February 2024, list of the master record): every supply used in a step is listed",
  rows: ["record-elements mfr-instructions"],
  bad: example(["    tap mag\n", "    tap magg\n"]),
  good: example(),
  happening: "unknown-thing",
  *find({ run, reading, recipe }) {
    // One material that is missing is one slip, at however many steps it is named.
    const uses = new Map<string, Happening<"unknown-thing">[]>();
    for (const h of happened(run, "unknown-thing")) {
      const same = uses.get(h.data.name);
      if (!same) uses.set(h.data.name, [h]);
      else if (!same.some((other) => other.spot.start === h.spot.start)) same.push(h);
    }
    if (uses.size === 0) return;
    const unread = wordsNotRead(reading, recipe);
    for (const [name, [first, ...others]] of uses) {
      // A line of materials that holds the name but cannot be read has its own finding.
      if (unread.has(name)) continue;
      yield { at: first!.spot, name, step: first!.step, others: others.map(({ spot, step }) => ({ at: spot, step })) };
    }
  },
  say: ({ name, step, others }, { run, recipe }) => {
    const steps = [...new Set([step, ...others.map((o) => o.step)].map((s) => s.number))];
    const who = steps.length === 1 ? `Step ${steps[0]} names` : `Steps ${steps.join(", ")} name`;
    const isConditional = recipe.materials.some((m) => m.name.name === name);
    if (isConditional)
      return {
        text: `${who} \`${name}\`, but for this order no row of \`${name}\` in materials holds. Let one of its conditions hold, or name the step's own condition.`,
        related: others.map((o) => ({ at: o.at, text: `named in step ${o.step.number} too` })),
      };
    if (/^(?:air|bubbles?)$/.test(name))
      return {
        text: `${who} ${name} as a thing. Air is pushed out of a syringe by \`expel air from\` and the syringe.`,
      };
    return {
      text: `${who} \`${name}\`, which does not stand in materials.${didYouMean(nearNames(name, run.groups.keys()))} Name one of the materials, or add it there.`,
      related: others.map((o) => ({ at: o.at, text: `named in step ${o.step.number} too` })),
    };
  },
  fixes: ({ at, name, others }, { run }) =>
    nearNames(name, run.groups.keys()).map((near) => ({
      title: `Write ${near}`,
      edits: [at, ...others.map((o) => o.at)].map((spot) => replaceText(spot, near)),
    })),
});
