/** USP <800>, section 5 (from memory): hazardous drugs are made in a containment control; a clean bench of either flow is none. */
import { expect, it } from "vitest";
import { example } from "../../language/checks/example.ts";
import { findingsOf } from "./findings-of.ts";

const told = (cabinet: string) =>
  findingsOf(
    example(
      ["  hazard         not-hazardous\n", "  hazard         hazardous\n"],
      ["  cabinet        horizontal-laminar-flow\n", `  cabinet        ${cabinet}\n`],
    ),
  ).some(({ name }) => name === "hazardous-in-horizontal-flow");

it.each([
  ["horizontal-laminar-flow", true],
  ["vertical-laminar-flow", true],
  ["none", true],
  ["containment-cabinet", false],
  ["isolator", false],
])("a hazardous drug in %s", (cabinet, isTold) => expect(told(cabinet)).toBe(isTold));
