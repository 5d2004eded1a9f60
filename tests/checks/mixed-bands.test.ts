/** Bands whose ends cannot be compared are told where they stand, and stop nothing else. Labels that round prove what they can. */
import { describe, expect, it } from "vitest";
import { powderExample } from "../../language/checks/example.ts";
import { bandsExample } from "../../language/checks/units/band-rows.ts";
import { Library } from "../../language/library.ts";

function told(text: string): string[] {
  const library = new Library({ asOf: "2026-11-25" });
  library.open("a.misce", text);
  return library.findings("a.misce").map(({ name }) => name);
}

describe("a band in another measure", () => {
  const ordered: [string, string] = [
    "dose            4 g per bag",
    "dose            4 g banded by magnesium-bands per bag",
  ];

  it("does not stop the check of the recipe", () => {
    const names = told(bandsExample(ordered, ["from  4 g below 5 g", "from  4 g below 5 mmol"]));
    expect(names).toContain("band-not-comparable");
    expect(names).not.toContain("check-failed");
  });
});

describe("what can be drawn from a vial whose label rounds", () => {
  const about = (withdrawable: string, more = "") =>
    told(
      powderExample(
        ["    gives         50 mg/mL", "    gives         about 50 mg/mL"],
        ["    withdrawable  10 mL\n", `    withdrawable  ${withdrawable}\n`],
        ["  content    500 mg\n", `  content    500 mg\n${more}`],
      ),
    );
  const room = '  displacement  0.2 mL  source guide "vancomycin"\n';

  it("is no more than goes in and the powder takes up", () => {
    expect(about("10.2 mL", room)).not.toContain("withdrawable-beyond-content");
    expect(about("10.5 mL", room)).toContain("withdrawable-beyond-content");
  });

  it("may be a rounding more by the label alone, and not twice as much", () => {
    expect(about("10.5 mL")).not.toContain("withdrawable-beyond-content");
    expect(about("20 mL")).toContain("withdrawable-beyond-content");
  });
});
