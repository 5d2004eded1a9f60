import type { Liquid } from "../../bench/liquid.ts";
import type { NameSlot } from "../../model/slots.ts";
import { recipeCheck } from "../check.ts";
import { factorBetween } from "../factor-between.ts";
import { labelsBehind } from "../figures-behind.ts";
import { stepName } from "../showing.ts";
import { slipsOf } from "../slips.ts";
import { dilutionExample, lives } from "../technique/intermediates.ts";
import { agreement, derivedLike, shownLike } from "./held-after.ts";

export const intermediateStrengthDiffers = recipeCheck({
  name: "intermediate-strength-differs",
  family: "volumes",
  severity: "error",
  title: "An intermediate dilution does not have its declared strength when it is labelled",
  why: "Every draw from it rests on the strength on its label.",
  source:
    "Master formulation and compounding records (study page restating USP <795> and <797> 2023, February 2024, list of the master record): quantities and strength are recomputed",
  rows: ["record-elements mfr-calculations"],
  bad: dilutionExample(["    at   250 mg/mL\n", "    at   25 mg/mL\n"]),
  good: dilutionExample(),
  *find({ runs }) {
    for (const run of runs) {
      if (run.unknown || run.overfill !== "label") continue;
      for (const { intermediate, name, vessel, filled, labelled } of lives(run)) {
        const step = labelled ?? filled;
        const liquid = step.after.get(vessel);
        if (slipsOf(run).reaches(vessel)) continue;
        for (const { slots } of intermediate.facts.all("at")) {
          const { concentration: at, salt, drug } = slots;
          if (!at.quantity) continue;
          const { value, why } = liquid
            ? derivedLike(at.quantity, liquid, run, drug?.name, salt?.name)
            : { value: undefined, why: "it is empty" };
          if (value && agreement(value, at.quantity, at.decimals) === "agrees") continue;
          const of = drug ? `${drug.name} ` : "";
          yield {
            at,
            written: `${of}${at.written}${salt ? ` as ${salt.name}` : ""}`,
            salt,
            called: intermediate.name.name,
            name,
            step,
            labelled: labelled !== undefined,
            why: whyNot(why, drug, liquid),
            value,
            stated: at.quantity,
            behind: labelsBehind(liquid?.stocks ?? [], run, drug?.name),
          };
        }
      }
    }
  },
  say: ({ written, called, name, step, labelled, why, value, stated, salt, behind }) => ({
    text:
      value === undefined
        ? `${called} is declared at ${written}; its strength after ${stepName(step)} cannot be derived: ${why}. Mend the steps or the figure.`
        : `${called} is declared at ${written}; ${name} holds ${shownLike(value, stated, salt)} when ${stepName(step)} ${labelled ? "labels it" : "has filled it"}${factorBetween(stated.value, value)}. Find out which is wrong and mend it.`,
    related: behind,
  }),
});

/** Of several drugs each has a line of its own. */
function whyNot(why: string, drug: NameSlot | undefined, liquid: Liquid | undefined): string {
  const [one, other] = liquid?.drugs ?? [];
  return drug || !one || !other ? why : `${why}; write \`at ${one} …\` and \`at ${other} …\``;
}
