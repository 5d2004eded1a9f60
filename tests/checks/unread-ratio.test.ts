/** A ratio that stands for no strength leaves all that rests on it unjudged; no site may switch that off. */
import { describe, expect, it } from "vitest";
import { example } from "../../language/checks/example.ts";
import { Library } from "../../language/library.ts";

function told(strength: string, severity: string): string[] {
  const library = new Library({ asOf: "2026-11-25" });
  const grade = `  severity       ratio-strength ${severity} because "as the supplier prints it" by pharmacist\n`;
  const text = example(["strength   500 mg/mL", `strength   ${strength}`]);
  library.open("a.misce", text.replace("site {\n", `site {\n${grade}`));
  return library.findings("a.misce").map(({ name, severity: as }) => `${as} ${name}`);
}

describe("where the site lets ratios stand", () => {
  it("a ratio that can be read is silent", () => {
    expect(told("1:2 w/v", "off")).toEqual([]);
    expect(told("1:2 w/v", "warning")).toEqual(["warning ratio-strength"]);
  });

  it("one that stands for no strength is an error all the same", () => {
    for (const severity of ["off", "warning"]) {
      expect(told("1:0.5 w/v", severity)).toContain("error number-with-two-readings");
      expect(told("1:0 w/v", severity)).toContain("error number-with-two-readings");
    }
  });
});
