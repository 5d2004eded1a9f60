/**
 * Drops a minute in print. A set of 20 drops/mL and one of 60 drops/mL are three times apart, so that a number of drops says nothing without its
 * set: the text, the tray or the order names it (common practice). Magnesium 4 g: 108 mL in 4 h are 27 mL/h, the bag by its label 25 mL/h.
 */
import { describe, expect, it } from "vitest";
import { example } from "../../language/checks/example.ts";
import { findingsOf } from "./findings-of.ts";
import { areSilent, areTold } from "./sayings.ts";

describe("drops a minute by a set that the text names", () => {
  areTold("magnesium-4g", [
    ["27 drops/min, set 20 drops/mL", "27 drops/min", "order says 9 drops/min by 20 drops/mL"],
    ["90 drops a minute (20 drops per mL)", "90 drops a minute", "order says 9 drops/min by 20 drops/mL"],
    ["Run at 25 mL/h (8 drops/min, 60 drops/mL)", "8 drops/min for 25 mL/h", "recipe says 25 drops/min for 25 mL/h"],
    ["Run at 27 mL/h = 90 drops/min with a 20 drops/mL set", "90 drops/min for 27 mL/h"],
    ["note: Give at 90 drops/min by a set of 20 drops/mL", "90 drops/min"],
  ]);
  areSilent("magnesium-4g", [
    "27 drops/min",
    "9 drops/min, set 20 drops/mL",
    "9 drops a minute (20 drops per mL)",
    "8 drops/min by a set of 20 drops/mL",
    "Run at 25 mL/h (25 drops/min, 60 drops/mL)",
    "Run at 25 mL/h (27 drops/min, 60 drops/mL)",
    "Run at 27 mL/h = 9 drops/min with a 20 drops/mL set",
    "20 drops/mL set: 9 drops/min, 60 drops/mL set: 27 drops/min",
    "Giving set 20 drops/mL",
    "Start at 5 drops/min (20 drops/mL)",
  ]);
  // An infusion of which nothing says how long it runs, and what is pushed.
  areSilent("digoxin-40mcg", ["2 drops", "20 drops/min, set 20 drops/mL"]);
});

describe("drops a minute by the tray or the order", () => {
  const told = (line: string, ...changes: [string, string][]) =>
    findingsOf(
      example(...changes, ["  preparation bag {", `  label-text {\n    line "${line}"\n  }\n\n  preparation bag {`]),
    )
      .filter(({ name }) => name === "label-text-contradicts-order")
      .map(({ message }) => message);
  const withSet: [string, string][] = [
    [
      "stock magnesium-ampoule {",
      "device drip-set {\n  kind  tubing\n  drop-factor  20 drops/mL\n}\n\nstock magnesium-ampoule {",
    ],
    ["    needle       needle-18-gauge\n", "    needle       needle-18-gauge\n    set          drip-set\n"],
  ];
  it("of a set on the tray", () => {
    expect(told("Run at 9 drops/min", ...withSet)).toEqual([]);
    expect(told("Run at 27 drops/min", ...withSet)).toEqual([
      "This line of the label says 27 drops/min; the order says 9 drops/min by 20 drops/mL. Correct whichever is wrong.",
    ]);
    expect(told("Set of 60 drops/mL", ...withSet)).toEqual([
      "This line of the label says 60 drops/mL; the recipe says 20 drops/mL. Correct whichever is wrong.",
    ]);
  });
  it("of an order in drops", () => {
    const inDrops: [string, string] = ["infuse-over     4 h", "infuse-at       9 drops/min"];
    expect(told("Run at 9 drops/min", inDrops)).toEqual([]);
    expect(told("Run at 90 drops/min", inDrops)).toEqual([
      "This line of the label says 90 drops/min; the order says 9 drops/min. Correct whichever is wrong.",
    ]);
  });
});

it("a dose for each pound is told as a unit that is taken for the kilogram", () => {
  const names = (line: string) =>
    findingsOf(example(["  preparation bag {", `  label-text {\n    line "${line}"\n  }\n\n  preparation bag {`])).map(
      ({ name }) => name,
    );
  for (const line of ["20 mg/lb", "20 mg per pound", "Patient weighs 150 lb"])
    expect(names(line)).toEqual(["customary-unit"]);
  expect(names("Compounded by rules")).toEqual([]);
});
