/**
 * A limit that is broken beside a dose outside its window: left out where a dose within it may keep to the limit, told where none does.
 * Figures by hand.
 */
import { expect, test } from "vitest";
import { example } from "../../language/checks/example.ts";
import { findingsOf } from "./findings-of.ts";

const window = "dose           from 500 mg up to 10 g for any route";
const concentration = "concentration  up to 200 mg/mL for route intravenous";

/** The standard bag of 4 g (8 mL in 108 mL, over 4 h) with another window and limits. */
const names = (doses: string, limit: string, rate = "rate           up to 9 g/h for route intravenous") =>
  findingsOf(
    example(
      [window, `dose           ${doses} for any route`],
      [concentration, `concentration  ${limit} for route intravenous`],
      ["rate           up to 9 g/h for route intravenous", rate],
    ),
  ).map(({ name }) => name);

test.each([
  // 37 mg/mL; 3 g, still in the window, are 28 mg/mL.
  ["from 500 mg up to 3 g", "up to 30 mg/mL", []],
  // The greatest dose of the window is 28 mg/mL, the least 5 mg/mL: all of it too little.
  ["from 500 mg up to 3 g", "from 60 mg/mL up to 200 mg/mL", ["concentration-below-limit"]],
  // The least dose of the window is 46 mg/mL, and more than the limit.
  ["from 5 g up to 10 g", "up to 30 mg/mL", ["concentration-above-limit"]],
  ["from 5 g up to 10 g", "from 40 mg/mL up to 200 mg/mL", []],
  // Without a bound above, some dose is strong enough.
  ["from 5 g", "from 40 mg/mL", []],
])("4 g where a dose is %s and the strength %s", (doses, limit, more) => {
  expect(names(doses, limit).sort()).toEqual([...more, "dose-outside-window"].sort());
});

test.each([
  // 1 g/h; 3 g over 4 h are 750 mg/h.
  ["from 500 mg up to 3 g", "up to 800 mg/h", []],
  ["from 500 mg up to 3 g", "from 2 g/h up to 9 g/h", ["rate-below-limit"]],
  ["from 5 g up to 10 g", "up to 800 mg/h", ["rate-above-limit"]],
])("4 g where a dose is %s and the rate %s", (doses, limit, more) => {
  const found = names(doses, "up to 200 mg/mL", `rate           ${limit} for route intravenous`);
  expect(found.sort()).toEqual([...more, "dose-outside-window"].sort());
});
