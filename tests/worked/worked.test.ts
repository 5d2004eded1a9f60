/**
 * Every published worked example that was read and is right (or right once rounded) comes out of the language's own engine: a
 * recipe that is run, or an expression over quantities. What the language cannot say stands in `notSaid` with its reason.
 */
import { describe, expect, it } from "vitest";
import { agrees, byId, expectPrinted, rows } from "./rows.ts";
import { shapes } from "./shapes/all.ts";
import type { Shape } from "./shapes/shape.ts";

/** Row → why the language cannot express it. A row here must have no shape. */
const notSaid: Readonly<Record<string, string>> = {};

const wanted = rows.filter((r) => r.verified === "read" && (r.status === "ok" || r.status === "ok-after-rounding"));
const shapeOf: ReadonlyMap<string, Shape> = new Map(
  shapes.flatMap((shape) => shape.rows.map((id) => [`WE-${id}`, shape] as const)),
);

describe("the account of rows", () => {
  it("counts what was read", () => expect(rows.filter((r) => r.verified === "read").length).toBe(249));
  it("has each right row in just one shape, or with a reason in the list", () => {
    const ids = shapes.flatMap((shape) => shape.rows);
    expect(new Set(ids).size).toBe(ids.length);
    const missing = wanted.filter((row) => !shapeOf.has(row.id) && !notSaid[row.id]).map((row) => row.id);
    expect(missing).toEqual([]);
    expect(Object.keys(notSaid).filter((id) => shapeOf.has(id) || !byId.has(id))).toEqual([]);
    expect(ids.filter((id) => !wanted.includes(byId.get(`WE-${id}`)!))).toEqual([]);
  });
  it("expresses more than nine in ten", () => {
    expect(shapeOf.size / wanted.length).toBeGreaterThan(0.9);
  });
});

for (const shape of shapes) {
  describe(shape.name, () => {
    for (const id of shape.rows) {
      const row = byId.get(`WE-${id}`)!;
      it(`${id}: ${row.asked} is ${row.answer.value} ${row.answer.unit}`, () => {
        expectPrinted(row, shape.find(row));
        // The comparison itself can fail: a figure ten times as large is never the printed one.
        expect(
          agrees(
            { ...row, answer: { ...row.answer, value: `${row.answer.value.replace(".", "")}00` } },
            shape.find(row),
          ),
        ).toBe(row.answer.value === "0");
      });
    }
  });
}
