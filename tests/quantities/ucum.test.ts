/**
 * Against UCUM: its functional test suite (tests/reference/units/ucum-functional-tests.json, EPL 1.0) and, as an independent
 * converter, the package @lhncbc/ucum-lhc, whose numbers are binary floating point and therefore compared to 1e-9.
 */
import { createRequire } from "node:module";
import { describe, expect, test } from "vitest";
import { Exact } from "../../language/quantities/exact.ts";
import { isRefusal, over, times, toUnit } from "../../language/quantities/quantity.ts";
import { findUnit, type Unit } from "../../language/quantities/unit.ts";
import { rowsBelowTheLine, unitRows } from "../../language/quantities/unit-table.ts";
import suite from "../reference/units/ucum-functional-tests.json";

interface Converted {
  status: string;
  toVal: number | null;
}
interface OtherConverter {
  convertUnitTo(from: string, value: number, to: string): Converted;
  validateUnitString(unit: string): { status: string };
}
// The package has no type declarations.
const { UcumLhcUtils } = createRequire(import.meta.url)("@lhncbc/ucum-lhc") as {
  UcumLhcUtils: { getInstance(): OtherConverter };
};
const ucum = UcumLhcUtils.getInstance();
const cases = suite.rows as unknown as { id: string; section: string; case: Record<string, string> }[];

/** Texts that are UCUM codes of something else, but in a recipe can only mean what the trade means by them. */
function hasTradeMeaning(text: string, unit: Unit): boolean {
  // C: degrees Celsius, coulomb in UCUM. pH: acidity, picohenry in UCUM. U: units of activity, with a finding; the enzyme unit in UCUM.
  return (
    text === "C" || text === "pH" || (unit.activityKind === "unit" && /^U(\/|$)/.test(text) && !findUnit(text).exact)
  );
}

const texts = [
  ...new Set(
    cases
      .flatMap(({ case: c }) => [c.unit, c.srcUnit, c.dstUnit, c.u1, c.u2, c.uRes])
      .filter((text) => text !== undefined),
  ),
];

describe("functional test suite", () => {
  test("is complete", () => expect(cases.length).toBe(573));

  test("every unit text of the suite is either the same unit here or refused", () => {
    const read: string[] = [];
    for (const text of texts) {
      const { unit } = findUnit(text);
      if (!unit || hasTradeMeaning(text, unit)) continue;
      read.push(text);
      expect(ucum.validateUnitString(text).status, text).toBe("valid");
      const same = ucum.convertUnitTo(text, 1, unit.ucum);
      expect(same.status, `${text} read as ${unit.spelling}`).toBe("succeeded");
      expect(Math.abs((same.toVal ?? 0) - 1), `${text} read as ${unit.spelling}`).toBeLessThan(1e-9);
    }
    expect(read.length).toBeGreaterThan(5);
  });

  test("what UCUM calls no unit is none here in its safe spelling", () => {
    for (const { case: c } of cases.filter((each) => each.section === "validation" && each.case.valid === "false")) {
      expect(findUnit(c.unit ?? "").exact && !tradeSpellings.has(c.unit ?? ""), c.unit).toBe(false);
    }
  });

  test("conversions and arithmetic: refused where a unit is not ours, else equal", () => {
    let done = 0;
    for (const { section, case: c, id } of cases) {
      if (section === "conversion") {
        const from = findUnit(c.srcUnit ?? "").unit;
        const to = findUnit(c.dstUnit ?? "").unit;
        if (!from || !to) continue;
        done += 1;
        const result = toUnit({ value: Exact.of(c.value!), unit: from }, to);
        expect(!isRefusal(result) && result.value.equals(Exact.of(c.outcome!)), id).toBe(true);
      }
      if (section === "multiplication" || section === "division") {
        const a = findUnit(c.u1 ?? "").unit;
        const b = findUnit(c.u2 ?? "").unit;
        if (!a || !b) continue;
        done += 1;
        const result = (section === "division" ? over : times)(
          { value: Exact.of(c.v1!), unit: a },
          { value: Exact.of(c.v2!), unit: b },
        );
        expect(result.value.toText(), id).toBe(c.vRes);
      }
    }
    // The suite converts lengths, speeds and electric units; none of its pairs is in this trade's set.
    expect(done).toBe(0);
  });
});

/** Spellings that are safe in the trade and no UCUM code: their code is in `Unit.ucum`. */
const tradeSpellings = new Set(unitRows.flatMap((row) => [row.spelling, ...(row.also ?? [])]));

/** Same numbers on every machine. */
function seeded(seed: number): () => number {
  let state = seed;
  return () => {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    return state / 2 ** 32;
  };
}

describe("10,000 conversions between units of the set", () => {
  const random = seeded(20270331);
  const pick = <T>(from: readonly T[]): T => from[Math.floor(random() * from.length)]!;
  // The other library converts no arbitrary unit, not even [USP'U]/g to [USP'U]/mg, and finds no number for a pH.
  const shared = unitRows.filter((row) => !["activity", "pH", "gauge"].includes(row.axis));
  const above = shared.filter((row) => !row.alone).map((row) => row.spelling);
  const lone = shared.map((row) => row.spelling);
  const below = [
    ...unitRows.filter((row) => /^(?:volume|mass|time|area)$/.test(row.axis) && !row.alone),
    ...rowsBelowTheLine,
  ].map((row) => row.spelling);

  function randomUnit(): Unit | undefined {
    const kind = random();
    if (kind < 0.3) return findUnit(pick(lone)).unit;
    if (kind < 0.75) return findUnit(`${pick(above)}/${pick(below)}`).unit;
    return findUnit(`${pick(above)}/${pick(below)}/${pick(below)}`).unit;
  }

  test("agree to 1e-9", { timeout: 60_000 }, () => {
    let compared = 0;
    let tries = 0;
    const pool = Array.from({ length: 4000 }, randomUnit).filter((each) => each !== undefined);
    const byKind = grouped(pool);
    while (compared < 10_000 && tries < 40_000) {
      tries += 1;
      const from = pick(pool);
      const to = pick(byKind.get(kindOf(from))!);
      if (from.spelling === to.spelling) continue;
      const value = Exact.of(Math.floor(random() * 1_000_000) + 1).over(Exact.of(pick([1, 10, 1000, 100_000])));
      const ours = toUnit({ value, unit: from }, to);
      if (isRefusal(ours)) throw new Error(`${from.spelling} to ${to.spelling}: ${ours.reason}`);
      const theirs = ucum.convertUnitTo(from.ucum, value.toDecimal().toNumber(), to.ucum);
      if (theirs.status !== "succeeded")
        throw new Error(`${from.ucum} to ${to.ucum} is not converted by the other library`);
      const expected = ours.value.toDecimal().toNumber();
      expect(Math.abs(theirs.toVal! - expected) / expected, `${from.spelling} to ${to.spelling}`).toBeLessThan(1e-9);
      compared += 1;
    }
    expect(compared).toBe(10_000);
  });

  function grouped(pool: readonly Unit[]): Map<string, Unit[]> {
    const map = new Map<string, Unit[]>();
    for (const each of pool) map.set(kindOf(each), [...(map.get(kindOf(each)) ?? []), each]);
    return map;
  }

  function kindOf(each: Unit): string {
    return `${each.dimension.key} ${each.activityKind ?? ""}`;
  }

  test("what we refuse between base kinds is not a mere renaming there", () => {
    // UCUM makes the equivalent and the osmole a mole; the tool does not (rows ucum-eq-trap, ucum-osm-trap).
    for (const [from, to] of [
      ["mEq", "mmol"],
      ["mOsm", "mmol"],
      ["units", "mg"],
      ["h", "days"],
      ["international units", "USP units"],
    ] as const) {
      expect(
        isRefusal(toUnit({ value: Exact.one, unit: findUnit(from).unit! }, findUnit(to).unit!)),
        `${from} to ${to}`,
      ).toBe(true);
    }
  });
});
