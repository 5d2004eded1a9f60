/**
 * A limit that is broken is told with the figure that would keep it, worked out by hand here: 4 g at 9 g/h is 26.67 min, at least 2 g/h is
 * 2 h at most; 4 g at up to 20 mg/mL is 200 mL. The drug and its limits are those of the invented example.
 */
import { expect, it } from "vitest";
import { example } from "../../language/checks/example.ts";
import { findingsOf } from "./findings-of.ts";

const said = (name: string, ...changes: Parameters<typeof example>) =>
  findingsOf(example(...changes)).find((f) => f.name === name)?.message;
const rate = "  rate           up to 9 g/h for route intravenous\n";
const strength = "  concentration  up to 200 mg/mL for route intravenous\n";
const over = (time: string): [string, string] => ["    infuse-over     4 h\n", `    infuse-over     ${time}\n`];

it("a rate above the limit", () => {
  expect(said("rate-above-limit", over("20 min"))).toContain("Give it over 27 min or longer.");
  const slow: [string, string] = [rate, "  rate           up to 500 mg/h for route intravenous\n"];
  expect(said("rate-above-limit", slow)).toContain("Give it over 8 h or longer.");
});

it("a rate that the pump is set to has no time to be given over", () => {
  const pump: [string, string] = ["    infuse-over     4 h\n", "    infuse-at       400 mL/h\n"];
  expect(said("rate-above-limit", pump)).toContain("Give it more slowly.");
});

it("a rate below the limit", () => {
  const from: [string, string] = [rate, "  rate           from 2 g/h up to 9 g/h for route intravenous\n"];
  expect(said("rate-below-limit", from)).toContain("Give it over 2 h at most.");
});

it("a strength above the limit", () => {
  const upTo = (limit: string): [string, string] => [strength, `  concentration  ${limit} for route intravenous\n`];
  expect(said("concentration-above-limit", upTo("up to 20 mg/mL"))).toContain("Dilute it to 200 mL or more, or");
  // 4,000 mg at 30 mg/mL is 133.33 mL.
  expect(said("concentration-above-limit", upTo("up to 30 mg/mL"))).toContain("Dilute it to 134 mL or more, or");
  // Exactly at an end that is not included it is not allowed yet.
  expect(said("concentration-above-limit", upTo("below 20 mg/mL"))).toContain("Dilute it more, or");
});
