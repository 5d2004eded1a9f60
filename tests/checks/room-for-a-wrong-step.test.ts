/** A step that makes room for what another adds is told through that other one; the two must not keep each other quiet. */
import { describe, expect, it } from "vitest";
import { example } from "../../language/checks/example.ts";
import { Library } from "../../language/library.ts";

function told(...changes: [string, string][]): string[] {
  const text = example(
    ["method          add-to-bag", "method          withdraw-first"],
    [
      "    needle       needle-18-gauge\n",
      "    needle       needle-18-gauge\n    waste        syringe-10mL\n    thin         needle-21-gauge\n",
    ],
    [
      "    disinfect bag\n    inject syringe into bag\n",
      "    disinfect bag\n    attach thin to waste\n    withdraw added-volume from bag using waste and discard  = 8 mL\n    disinfect bag\n    inject syringe into bag  = 8 mL\n",
    ],
    ["concentration  37.04 mg/mL", "concentration  40 mg/mL"],
    ...changes,
  );
  const library = new Library({ asOf: "2026-11-25" });
  library.open("a.misce", text);
  return library.findings("a.misce").map(({ name }) => name);
}

describe("a withdrawal and an addition, both with their volume beside them", () => {
  it("are silent where both are right", () => {
    expect(told()).toEqual([]);
  });

  it("are told where the label halves the strength of what is added", () => {
    const names = told(["strength   500 mg/mL", "strength   1,000 mg/mL"], ["= 8 mL\n    expel", "= 4 mL\n    expel"]);
    expect(names).toContain("claim-differs");
  });
});
