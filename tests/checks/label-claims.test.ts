/**
 * One more line on the label, or another title, on recipes of the sample library. Two mg of noradrenaline tartrate hold 1 mg of
 * noradrenaline by the sample's own monograph (invented there, as on usual ampoules); esketamine is one of the two mirror images of
 * ketamine and has an International Nonproprietary Name of its own (WHO).
 */
import { expect, it } from "vitest";
import { allOfLabel, allOfTitle, labelled, told } from "./printed-on-samples.ts";

/** `title: ...` is another title, all else one more line of the label. */
function toldOf(recipe: string, line: string): string[] {
  const title = /^title: (.*)$/.exec(line)?.[1];
  return title === undefined ? allOfLabel(recipe, line) : allOfTitle(recipe, title);
}

const nor = "noradrenaline-8mg-syringe";
const tartrate = "8 mg as noradrenaline, which is 16 mg as noradrenaline-tartrate";

it.each([
  // The salt for the base: half the dose, or twice.
  [
    nor,
    "title: Noradrenaline tartrate 8 mg in glucose 5 %",
    'The title says 8 mg; the order counts it as noradrenaline, which the title does not say, and as noradrenaline-tartrate it is 16 mg. Write "8 mg as noradrenaline".',
  ],
  [
    nor,
    "title: Noradrenaline (tartrate) 9 mg in glucose 5 %",
    "The title says 9 mg of noradrenaline-tartrate; the order comes to 16 mg",
  ],
  [
    nor,
    "Contains noradrenaline tartrate 8 mg",
    `This line of the label says 8 mg of noradrenaline-tartrate; the order says ${tartrate}`,
  ],
  [
    nor,
    "Noradrenaline tartrate 8 mg in 50 mL",
    `This line of the label says 8 mg of noradrenaline-tartrate; the order says ${tartrate}`,
  ],
  // What a container holds, on one that is titrated.
  [nor, "Contains noradrenaline 80 mg", "This line of the label says 80 mg; the order says 8 mg"],
  [nor, "This syringe contains 80 mg of noradrenaline", "This line of the label says 80 mg; the order says 8 mg"],
  [nor, "Total noradrenaline 80 mg", "This line of the label says 80 mg; the order says 8 mg"],
  [nor, "Noradrenaline 80 mg", "This line of the label says 80 mg; the order says 8 mg"],
  [nor, "Noradrenaline 80 mg in glucose 5 %", "This line of the label says 80 mg; the order says 8 mg"],
  [nor, "Noradrenaline base 16 mg", "This line of the label says 16 mg; the order says 8 mg"],
  // One container goes in one way.
  [
    nor,
    "For intravenous or intrathecal use.",
    "This line of the label says For intravenous or intrathecal use; the order says intravenous",
  ],
  [
    nor,
    "For intravenous use only. Fatal if given intravenously.",
    "This line of the label says Fatal if given intravenously; the order says intravenous",
  ],
  [nor, "For enteral use only.", "This line of the label says enteral; the order says intravenous"],
  // A unit that nothing turns into the ordered one.
  ["vasopressin-50-units", "Contains 999 mg", "This line of the label says 999 mg; the order says 50 units"],
  ["vasopressin-50-units", "Contains vasopressin 5 mg", "This line of the label says 5 mg; the order says 50 units"],
  [
    "vasopressin-50-units",
    "title: Vasopressin 5 mg in sodium chloride 0.9 % 500 mL",
    "The title says 5 mg; the order comes to 50 units",
  ],
  // One of two mirror images.
  [
    "ketamine-100mg-syringe",
    "title: S-ketamine 100 mg, syringe of 50 mL",
    "The title says S-ketamine; the order says ketamine",
  ],
  [
    "ketamine-100mg-syringe",
    "S(+)-Ketamine 2 mg/mL",
    "This line of the label says S(+)-Ketamine; the order says ketamine",
  ],
  // How long it runs, in other words than `over`.
  ...[
    ["900 mg, 500 mL, 10 h", "10 h"],
    ["900 mg / 500 mL / 12 h", "12 h"],
    ["Amiodarone 900 mg in 500 mL, 10 hours", "10 hours"],
    ["12-hour infusion", "12-hour infusion"],
    ["Run for 10 h", "Run for 10 h"],
    ["Over: 10 h", "Over: 10 h"],
  ].map(([line, said]) => [
    "amiodarone-900mg",
    line!,
    `This line of the label says ${said}; the order says infuse-over 24 h`,
  ]),
  // An electrolyte that is not in it.
  ["magnesium-4g", "Potassium 20 mmol", "This line of the label says potassium 20 mmol; the recipe says no potassium"],
  [
    "phosphate-calcium",
    "Contains 40 mmol/L of potassium",
    "This line of the label says potassium 40 mmol/L; the recipe says no potassium",
  ],
])("%s with %j is told once", (recipe, line, told) => {
  expect(toldOf(recipe!, line!)).toEqual([told]);
});

it.each([
  [nor, "title: Noradrenaline tartrate 16 mg in glucose 5 %"],
  [nor, "title: Noradrenaline tartrate 8 mg as noradrenaline in glucose 5 %"],
  [nor, "title: Noradrenaline tartrate 16 mg (8 mg base) in glucose 5 %"],
  [nor, "title: Noradrenaline 8 mg (as tartrate) in glucose 5 %"],
  [nor, "Contains noradrenaline tartrate 16 mg"],
  [nor, "Contains noradrenaline 8 mg (as tartrate)"],
  [nor, "Noradrenaline 8 mg in glucose 5 %"],
  [nor, "Noradrenaline 8 mg (160 mcg/mL)"],
  [nor, "Start noradrenaline at 2 mcg/min"],
  [nor, "Noradrenaline base 8 mg"],
  [nor, "For intravenous use only. Fatal if given by any other route."],
  [nor, "For intravenous use only. Fatal if given intrathecally."],
  [nor, "For parenteral use only."],
  [nor, "Noradrenaline 5 mcg bolus if told"],
  ...["900 mg, 500 mL, 24 h", "24-hour infusion", "Change the line after 10 h", "Do not give in 10 min"].map((line) => [
    "amiodarone-900mg",
    line,
  ]),
  ["vasopressin-50-units", "Contains 50 units (100 mcg)"],
  ["vasopressin-50-units", "title: Vasopressin 50 units (100 mcg) in sodium chloride 0.9 % 500 mL"],
  ["ketamine-100mg-syringe", "Ketamine 2 mg/mL, S. Ravine"],
  ["magnesium-4g", "Stop if serum potassium is 6 mmol/L or more"],
  ["magnesium-4g", "Monitor potassium: target potassium 4.5 mmol/L"],
  // Glycerophosphate brings phosphate.
  ["phosphate-calcium", "Phosphate 10 mmol"],
])("%s with %j is in order", (recipe, line) => {
  expect(toldOf(recipe!, line!)).toEqual([]);
});

const throughATube = (line: string) =>
  told("magnesium-4g", (text) =>
    labelled(line)(text).replace(/^( *route +)intravenous$/m, (_, word: string) => `${word}nasogastric`),
  );

it.each([
  ["For intravenous use only.", "intravenous; the order says nasogastric"],
  ["For oral or intravenous use.", "For oral or intravenous use; the order says nasogastric"],
  ["Fatal if given orally.", "Fatal if given orally; the order says nasogastric"],
])("%j on what goes through a tube into the stomach is told", (line, said) => {
  expect(throughATube(line)).toEqual([said]);
});

it.each(["For enteral use only.", "For oral use.", "For oral or enteral use.", "Fatal if given intravenously."])(
  "%j there is in order",
  (line) => {
    expect(throughATube(line)).toEqual([]);
  },
);
