/** One slip at a set or at a container that is too small is told once. Common practice. */
import { describe, expect, it } from "vitest";
import { example } from "../../language/checks/example.ts";
import { findingsOf } from "./findings-of.ts";

const told = (name: string, text: string) => findingsOf(text).flatMap((f) => (f.name === name ? [f.message] : []));

describe("ampoules that no step opens", () => {
  const three: [string, string][] = [
    ["  fill       10 mL", "  fill       5 mL"],
    ["    mag          magnesium-ampoule", "    mag          4 x magnesium-ampoule"],
  ];
  it("are told as a set, though the draw does not come to the last", () => {
    expect(told("ampoule-not-opened", example(...three, ["    open mag\n", ""]))).toEqual([
      "Step 5 draws from mag, ampoules that are still closed. Disinfect them and open them before.",
    ]);
  });
});

describe("a container that is too small at every step", () => {
  const twice = (capacity: string) =>
    told(
      "container-overfilled",
      example(
        ["  capacity   150 mL", `  capacity   ${capacity}`],
        [
          "    inject syringe into bag\n",
          "    inject 4 mL from syringe into bag\n    mix bag by inverting 10 times\n    disinfect bag\n    inject syringe into bag\n",
        ],
      ),
    );
  it("is told at the first, with what it would hold in the end", () => {
    expect(twice("103 mL")).toEqual([
      "After step 10 bag would hold 104 mL, and 108 mL after step 13, but it can hold 103 mL. Withdraw first, or use a larger container.",
    ]);
    expect(twice("105 mL")).toEqual([
      "After step 13 bag would hold 108 mL, but it can hold 105 mL. Withdraw first, or use a larger container.",
    ]);
  });
});
