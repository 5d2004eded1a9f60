import { nearNames } from "../../model/near.ts";
import type { ConditionSlot } from "../../model/slots.ts";
import { declarationCheck } from "../check.ts";
import { everyCondition } from "../declared-facts.ts";
import { example } from "../example.ts";
import { oneOf } from "../showing.ts";

/** What a condition may ask for. */
const inputs: readonly string[] = ["dose", "weight", "age", "body-surface", "lumen", "clearance"];

export function isConditionWord(word: string): boolean {
  return inputs.includes(word);
}

export const conditionWordUnknown = declarationCheck<{ at: ConditionSlot["input"]; near: readonly string[] }>({
  name: "condition-word-unknown",
  family: "structure",
  severity: "error",
  title: "A condition that asks for something no order states",
  why: "Such a condition can never be judged, and nobody knows for whom the line counts.",
  source: "common practice",
  bad: example([
    "up to 200 mg/mL for route intravenous\n",
    "up to 200 mg/mL for route intravenous  when wieght up to 40 kg\n",
  ]),
  good: example([
    "up to 200 mg/mL for route intravenous\n",
    "up to 200 mg/mL for route intravenous  when dose up to 10 g\n",
  ]),
  *find({ declaration }) {
    for (const { input } of everyCondition(declaration)) {
      if (!isConditionWord(input.name)) yield { at: input, near: nearNames(input.name, inputs) };
    }
  },
  say: ({ at: { name }, near }) => ({
    text: `No order states \`${name}\`. A condition asks for ${oneOf(near.length > 0 ? near : inputs)}: correct the word.`,
  }),
  fixes: ({ at, near }) => near.map((text) => ({ title: `Write ${text}`, edits: [{ at, text }] })),
});
