/**
 * How full containers really are (tests/reference/measuring/container-fill.json, each row with its source): declared as `overfill`,
 * the bench holds the label's volume, the least and the most, and what follows from each.
 */
import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { pointAt } from "../../language/bench/order.ts";
import type { Overfill } from "../../language/bench/overfill.ts";
import { type Run, runRecipe } from "../../language/bench/run.ts";
import { example } from "../../language/checks/example.ts";
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
  threshold?: Figure;
  overfillPercent?: string | { about?: string; low?: string; high?: string };
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

describe("an overfill that is stated as a share", () => {
  it.each([
    ["usp1151-50plus-mobile", 50],
    ["usp1151-50plus-viscous", 50],
    ["bag-10-rule-of-thumb", 250],
    ["vial-overfill-14", 2],
  ] as const)("%s of %d mL", (id, labelled) => {
    const { excessPercent, overfillPercent } = byId(id);
    const share = Number(
      excessPercent ?? (typeof overfillPercent === "string" ? overfillPercent : overfillPercent!.about),
    );
    const overfill = `overfill   ${(labelled * share) / 100} mL`;
    expect(held(runWith(`${labelled} mL`, overfill, "most")).volume).toBe(String((labelled * (100 + share)) / 100));
    expect(held(runWith(`${labelled} mL`, overfill, "label")).volume).toBe(String(labelled));
  });

  it("bag-canada: from the least to the most", () => {
    const { low, high } = byId("bag-canada").overfillPercent as { low: string; high: string };
    const overfill = `overfill   ${low} mL to ${high} mL`;
    expect(held(runWith("100 mL", overfill, "least")).volume).toBe(String(100 + Number(low)));
    expect(held(runWith("100 mL", overfill, "most")).volume).toBe(String(100 + Number(high)));
  });
});

it("partial-fill-500-in-1000: the size is not the fill", () => {
  const row = byId("partial-fill-500-in-1000");
  const run = runWith(`${row.fill!.value} mL`, "", "most", `${row.container!.value} mL`);
  expect(held(run).volume).toBe(row.fill!.value);
});

describe("bag-10-percent-rule", () => {
  // 500 mg/mL into 100 mL: 5 g are 10 mL, the tenth that may be added; 5.1 g are more.
  const added = (dose: string) => {
    const library = new Library({ asOf: "2026-11-25" });
    const text = example(["    dose            4 g per bag", `    dose            ${dose} per bag`]);
    library.open(
      "add.misce",
      text.replace("draw 4 g from mag into syringe  = 8 mL", `draw ${dose} from mag into syringe`),
    );
    return library.findings("add.misce").some((f) => f.name === "additive-over-share");
  };
  it("is silent at its figure and told beyond", () => {
    expect(byId("bag-10-percent-rule").threshold!.value).toBe("10");
    expect([added("5 g"), added("5.1 g")]).toEqual([false, true]);
  });
});

/** Row → why it is not computed here. */
const notComputed: Readonly<Record<string, string>> = {
  "usp697-sample-10": "how many containers are tested for their content",
  "usp697-sample-3-10": "how many containers are tested for their content",
  "usp697-sample-3": "how many containers are tested for their content",
  "usp697-not-less": "the label's volume is the least: the run by the label draws no more",
  "usp697-needle-not-emptied": "how content is tested",
  "bag-scale-1l": "the scale printed on a bag is no measure, and no step measures with it",
  "residual-2": "what stays in the bag at the patient",
  "residual-drained-250": "what stays in the bag at the patient",
  "residual-drained-500": "what stays in the bag at the patient",
  "method-1": "tests/spec/hard-cases.md, Nominal and true",
  "method-2": "tests/spec/hard-cases.md, Overfill, and a part of the bag",
  "method-3": "tests/spec/hard-cases.md, Overfill, and a part of the bag",
  "method-4": "tests/spec/orders.md, Two fluids in one bag",
  "partial-fill-vial": "no figure",
};

it("leaves no row that was read without a test or a reason", () => {
  const text = readFileSync(import.meta.filename, "utf8");
  const isTested = ({ id, kind, excess }: Row) =>
    (kind === "recommended-excess-volume" && excess !== undefined) ||
    text.includes(`"${id}`) ||
    text.includes(`${id}:`);
  expect(rows.filter((r) => !isTested(r)).map((r) => r.id)).toEqual([]);
  expect(Object.keys(notComputed).filter((id) => !byId(id))).toEqual([]);
});
