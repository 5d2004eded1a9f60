/**
 * So little that the syringe shows none of it. Heparin 25,000 units for a bag, from 5,000 units/mL, are 5 mL; the answer printed for this
 * problem is 50 units, 0.01 mL (qammunity.org/21322217), five hundred times less. The bag and its drug are those of the sample, by
 * hand: 8 mL where 0.01 mL is written.
 */
import { describe, expect, it } from "vitest";
import { example } from "../../language/checks/example.ts";
import { findingsOf } from "./findings-of.ts";

const nothing = example(
  ["    draw 4 g from mag into syringe  = 8 mL", "    draw 0.01 mL from mag into syringe"],
  ["    concentration  37.04 mg/mL\n", "    nominal-concentration  40 mg/mL\n"],
);

describe("a volume of which the scale shows nothing", () => {
  const told = findingsOf(nothing).filter(({ severity }) => severity !== "note");
  it("is told as the dose that is not there, and as none to be read", () => {
    expect(told.map(({ name }) => name)).toEqual(["dose-not-delivered", "not-on-graduation", "too-small-to-measure"]);
  });
  it("is never mended by writing 0 mL", () => {
    expect(told[1]!.message).toBe(
      "States 0.01 mL, which cannot be read on syringe, marked every 0.2 mL; nothing is drawn. Use a syringe with finer marks, or round the dose.",
    );
  });
});
