/** Titles of worked examples, against what the examples state. The recipe is a sample: 95 kg, where the dose is capped at 2 g. */
import { expect, it } from "vitest";
import { exampleTitle } from "./printed-on-samples.ts";

const capped = "adult of 95 kg, capped";
const named = (words: string) => exampleTitle("vancomycin-loading", capped, words);

it.each([
  ["adult of 60 kg", "60 kg; the example says weight 95 kg"],
  ["60 kg, capped", "60 kg; the example says weight 95 kg"],
  ["95 kg: 2.5 g", "2.5 g; the example says dose 2 g"],
])("the title %s is told", (words, said) => {
  expect(named(words)).toEqual([said]);
});

it.each([
  "adult of 95 kg",
  "95 kg: 2 g",
  "95 kg at 25 mg/kg, capped at 2 g",
  "adult above 80 kg",
  "40 kg to 120 kg",
  "2 g from 500 mg vials",
  "capped",
])("the title %s is right", (words) => {
  expect(named(words)).toEqual([]);
});
