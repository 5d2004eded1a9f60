/** A bag from which one step serves several vials: no step can stand between the entries. Figures are invented. */
import { describe, expect, it } from "vitest";
import { powderExample } from "../../language/checks/example.ts";
import { findingsOf } from "./findings-of.ts";

/** Two vials, reconstituted from a bag in one step. */
const fromBag = (...more: [string, string][]) =>
  findingsOf(
    powderExample(
      ["    vial         vancomycin-vial-500", "    vial         2 x vancomycin-vial-500"],
      ["    wfi          wfi-vial-20", "    wfi          water-bag"],
      [
        "lots vancomycin-vial-500 {",
        "stock water-bag {\n  fluid      water-for-injection\n  container  bag\n  fill       100 mL\n  capacity   150 mL\n  made-of    polyolefin\n  doses      single\n  storage    room-temperature\n}\n\nlots vancomycin-vial-500 {",
      ],
      ["lots wfi-vial-20 {", "lots water-bag {"],
      ["    reconstitute vial with 10 mL", "    reconstitute each of vial with 10 mL"],
      ...more,
    ),
  ).map(({ name }) => name);

describe("the port of a bag", () => {
  // USP <797>: the port is wiped before each entry; within one step the sheet says so.
  it("is wiped once before a step that serves several vials", () => {
    expect(fromBag()).not.toContain("entry-not-disinfected");
  });

  it("is told where it was not wiped before that step, once", () => {
    const found = fromBag(["    disinfect wfi, vial\n", "    disinfect vial\n"]);
    expect(found.filter((name) => name === "entry-not-disinfected").length).toBeGreaterThan(0);
  });

  it("is wiped again before the next step", () => {
    const again: [string, string] = [
      "    draw 500 mg from vial into measure at equal pressure  = 10 mL\n",
      "    draw 500 mg from vial into measure at equal pressure  = 10 mL\n    draw 5 mL from wfi into measure\n",
    ];
    expect(fromBag(again)).toContain("entry-not-disinfected");
  });
});
