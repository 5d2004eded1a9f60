/**
 * How full containers really are (tests/reference/measuring/container-fill.json, each row with its source): declared as `overfill`,
 * the bench holds the label's volume, the least and the most, and what follows from each.
 */
import { describe, expect, it } from "vitest";
import { pointAt } from "../../language/bench/order.ts";
import { type Run, runRecipe } from "../../language/bench/run.ts";
import type { Overfill } from "../../language/bench/setup.ts";
import { Library } from "../../language/library.ts";
import type { Recipe } from "../../language/model/declaration.ts";
import { type Limited, limitedText } from "./limits-library.ts";
import table from "./measuring/container-fill.json";

interface Figure {
  value: string;
  unit: string;
}
interface Row {
  id: string;
  kind: string;
  verified: string;
  labelled?: Figure & { atLeast?: Figure };
  excess?: Figure;
  excessPercent?: string;
  range?: { low: Figure; high: Figure };
  overfillUpTo?: Figure;
  fill?: Figure;
  container?: Figure;
}

const rows = (table as unknown as { rows: Row[] }).rows.filter((r) => r.verified === "read");
const byId = (id: string) => rows.find((r) => r.id === id)!;
const plain: Limited = { drug: "", strength: "40 mg/mL", dose: "8 mg", to: "100 mL" };

/** The library of the published limits with another bottle for its source. */
function runWith(fill: string, overfill: string, which: Overfill, capacity = "2000 L"): Run {
  const text = limitedText(plain).replace(
    "  fill       1000 L\n  capacity   1000 L\n}\nstock tank",
    `  fill       ${fill}\n  ${overfill}\n  capacity   ${capacity}\n}\nstock tank`,
  );
  const library = new Library({ asOf: "2026-11-25" });
  library.open("fill.misce", text);
  const { lookup, policy } = library.surroundings();
  const recipe = library.declared("limited").find((d): d is Recipe => d.kind === "recipe")!;
  expect(library.findings("fill.misce").filter((f) => /not-understood|unknown-fact/.test(f.name))).toEqual([]);
  return runRecipe(recipe, lookup, policy, { point: pointAt(recipe, "from"), overfill: which });
}

/** What stands in the source before the first step: what was drawn and what is left. */
function held(run: Run): { volume: string; amount: string } {
  const source = run.groups.get("source")!.things[0]!;
  const drawn = run.steps[0]!.moved!;
  if (source.is !== "vessel") throw new Error("The source is no container.");
  const volume = source.liquid.volume.plus(drawn);
  const amount = source.liquid.amounts.get("remedy")!.over(source.liquid.volume).times(volume);
  return { volume: volume.toText(), amount: amount.toText() };
}

describe("the recommended excess volume (USP <1151>, as restated)", () => {
  for (const row of rows.filter((r) => r.kind === "recommended-excess-volume" && r.excess)) {
    it(`${row.id}: ${row.labelled!.value} mL and ${row.excess!.value} mL`, () => {
      const excess = `overfill   ${row.excess!.value} mL`;
      const fill = `${row.labelled!.value} mL`;
      const sum = (Number(row.labelled!.value) * 100 + Number(row.excess!.value) * 100) / 100;
      expect(held(runWith(fill, excess, "label")).volume).toBe(String(Number(row.labelled!.value)));
      expect(held(runWith(fill, excess, "most")).volume).toBe(String(sum));
      // The printed share agrees with the two figures, to the digits printed.
      const share = (Number(row.excess!.value) / Number(row.labelled!.value)) * 100;
      expect(share).toBeCloseTo(Number(row.excessPercent), 0);
    });
  }
});

describe("bags hold more than their label", () => {
  it.each(["bag-100-visual", "bag-100-weighed"])("%s: least and most", (id) => {
    const { range, labelled } = byId(id);
    const over = (figure: Figure) => (Number(figure.value) * 100 - Number(labelled!.value) * 100) / 100;
    const overfill = `overfill   ${over(range!.low)} mL to ${over(range!.high)} mL`;
    expect(held(runWith("100 mL", overfill, "least")).volume).toBe(String(Number(range!.low.value)));
    expect(held(runWith("100 mL", overfill, "most")).volume).toBe(String(Number(range!.high.value)));
    expect(held(runWith("100 mL", overfill, "label")).volume).toBe("100");
  });
  it.each(["bag-1000", "bag-250"])("%s: up to so much", (id) => {
    const { overfillUpTo, labelled } = byId(id);
    const found = held(runWith(`${labelled!.value} mL`, `overfill   0 mL to ${overfillUpTo!.value} mL`, "most"));
    expect(found.volume).toBe(String(Number(labelled!.value) + Number(overfillUpTo!.value)));
  });
  it("partial-fill-50-in-100: the size is not the fill", () => {
    const row = byId("partial-fill-50-in-100");
    const run = runWith(`${row.fill!.value} mL`, "", "most", `${row.container!.value} mL`);
    expect(held(run).volume).toBe(row.fill!.value);
  });
});

it("vial-overfill-dose: the whole content of an 80 mg vial of 2 mL with an eighth more is 90 mg", () => {
  // 40 mg/mL × 2.25 mL; amounts stand in g.
  expect(held(runWith("2 mL", "overfill   0.25 mL", "most"))).toEqual({ volume: "2.25", amount: "0.09" });
});
