/** A slip on a label shows itself in doses and volumes; what is told of those leads to the label, or to the line of the order. */
import { describe, expect, it } from "vitest";
import { example } from "../../language/checks/example.ts";
import { Library } from "../../language/library.ts";

function related(name: string, ...changes: [string, string][]): string[] {
  const text = example(...changes);
  const library = new Library({ asOf: "2026-11-25" });
  library.open("a.misce", text);
  const found = library.findings("a.misce").filter((finding) => finding.name === name);
  return found.flatMap((finding) =>
    finding.related.map(({ span, message }) => `${message}: ${text.slice(span.start, span.end)}`),
  );
}

describe("beside a figure that does not come out", () => {
  const label = "magnesium-ampoule: 50 mg/mL, by its label: 50 mg/mL";

  it("stands the strength that a volume was worked out with", () => {
    expect(related("claim-differs", ["strength   500 mg/mL", "strength   50 mg/mL"])).toEqual([label]);
  });

  it("stands the strength of what was drawn by volume, where the dose is wrong", () => {
    const byVolume: [string, string] = ["draw 4 g from mag into syringe", "draw 8 mL from mag into syringe"];
    const wrong: [string, string] = ["strength   500 mg/mL", "strength   50 mg/mL"];
    expect(related("dose-not-delivered", wrong, byVolume)).toEqual(["step 6 takes 8 mL: 8 mL", label]);
    // The volume that the step names is its own figure.
    expect(related("claim-differs", ["= 8 mL", "= 9 mL"], byVolume)).toEqual([]);
  });

  it("stands the line of the order where the step draws the dose", () => {
    const drawn = related(
      "claim-differs",
      ["draw 4 g from", "draw dose from"],
      ["dose            4 g per", "dose            3 g per"],
    );
    expect(drawn).toContain("the order: 3 g: dose            3 g per bag");
    expect(drawn).toContain("magnesium-ampoule: 500 mg/mL, by its label: 500 mg/mL");
  });
});
