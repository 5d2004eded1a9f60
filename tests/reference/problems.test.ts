/**
 * Practice problems of open teaching material, each through the language's own engine: a recipe that is run, or an expression over
 * quantities. Rows, printed answers and sources: tests/reference/practice/problems.json. A printed answer that is wrong stands there
 * with the figure that is right, and the engine must come to that one and not to the printed one.
 *
 * Body surface, ideal weight and creatinine clearance are inputs of an order or outside it, so that only the dose that follows from
 * them is here; a dose by carboplatin AUC follows from the clearance of the order.
 */
import { describe, expect, it } from "vitest";
import { Exact } from "../../language/quantities/exact.ts";
import { inUnit, measure } from "../worked/rows.ts";
import labels from "./practice/label-problems.json" with { type: "json" };
import prepared from "./practice/preparation-problems.json" with { type: "json" };
import published from "./practice/problems.json" with { type: "json" };
import taught from "./practice/teaching-problems.json" with { type: "json" };
import { agrees, engine, type Problem } from "./problem-engine.ts";

type Sources = Record<string, { title: string; where: string; verified: string }>;

function inTheEngine(rows: readonly Problem[], sources: Sources): void {
  for (const row of rows) {
    const { title, verified } = sources[row.source]!;
    const asked = `${row.id} ${row.by} ${[row.formula ?? "", ...row.given].join(", ")}`;
    it(`${asked}: ${row.answer} (${title}${verified === "memory" ? ", from memory" : ""})`, () => {
      const found = engine[row.by]!(row, ...row.given);
      const right = row.differs?.engine ?? row.answer;
      expect(agrees(found, right, row.to), `${inUnit(found, measure(right).unit.spelling).value.toText()}`).toBe(true);
      if (row.differs) expect(agrees(found, row.answer, row.to)).toBe(false);
      // The comparison itself can fail: ten times the figure is never right.
      const { value, unit } = measure(right);
      expect(agrees(found, `${value.times(Exact.of(10)).toText()} ${unit.spelling}`, row.to)).toBe(false);
    });
  }
}

describe("practice problems", () => {
  const rows = published.rows as Problem[];
  const sources: Sources = published.sources;
  it("are 177, 164 of them read, each with its own id and a source", () => {
    expect(rows.length).toBe(177);
    expect(new Set(rows.map((row) => row.id)).size).toBe(rows.length);
    expect(rows.filter((row) => sources[row.source]!.verified === "read").length).toBe(164);
  });
  inTheEngine(rows, sources);
});

describe("problems of preparations as wards and pharmacies print them", () => {
  const rows = prepared.rows as Problem[];
  it("are 111, all of them read, each with its own id and a source", () => {
    expect(rows.length).toBe(111);
    expect(new Set(rows.map((row) => row.id)).size).toBe(rows.length);
    expect(Object.values(prepared.sources).every(({ verified }) => verified === "read")).toBe(true);
    expect(new Set(rows.map((row) => row.source))).toEqual(new Set(Object.keys(prepared.sources)));
  });
  inTheEngine(rows, prepared.sources);
});

describe("figures of labels, wards and teaching pages", () => {
  const rows = labels.rows as Problem[];
  it("are 90, all of them read, each with its own id and a source", () => {
    expect(rows.length).toBe(90);
    expect(new Set(rows.map((row) => row.id)).size).toBe(rows.length);
    expect(Object.values(labels.sources).every(({ verified }) => verified === "read")).toBe(true);
    expect(new Set(rows.map((row) => row.source))).toEqual(new Set(Object.keys(labels.sources)));
  });
  inTheEngine(rows, labels.sources);
});

describe("teaching pages, labels and ward guides", () => {
  const rows = taught.rows as Problem[];
  it("are 80, all of them read, each with its own id and a source", () => {
    expect(rows.length).toBe(80);
    expect(new Set(rows.map((row) => row.id)).size).toBe(rows.length);
    expect(Object.values(taught.sources).every(({ verified }) => verified === "read")).toBe(true);
    expect(new Set(rows.map((row) => row.source))).toEqual(new Set(Object.keys(taught.sources)));
  });
  inTheEngine(rows, taught.sources);
});
