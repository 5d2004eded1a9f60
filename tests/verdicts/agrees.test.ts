/**
 * The verdicts of the language against a second judge that was written from its pages alone and shares none of its checks: limits, rates,
 * stability, meetings, filters, lots and deviations of libraries by their seeds, each finding on its line, none missing and none too many.
 * MISCE_LONG=1 makes 20,000 of them, MISCE_SEED begins elsewhere.
 */
import { describe, expect, it } from "vitest";
import { differences, known } from "./compare.ts";
import { scenario } from "./generate.ts";
import { judged } from "./judge.ts";
import { toldOf } from "./told.ts";
import { writtenScenario } from "./written.ts";

const isLong = process.env.MISCE_LONG === "1";
const first = Number(process.env.MISCE_SEED ?? 0);
const count = isLong ? 20_000 : 450;

describe("the verdicts and a second judge", () => {
  it(`are the same for ${count} libraries`, { timeout: 1_800_000 }, () => {
    const found: string[] = [];
    for (let seed = first; seed < first + count; seed++) {
      const each = scenario(seed);
      const written = writtenScenario(each);
      const apart = differences(judged(each), toldOf(written.text, each.asOf), written);
      if (apart.length > 0) found.push(`MISCE_SEED=${seed}: ${apart.slice(0, 3).join("; ")}`);
    }
    expect(found).toEqual([]);
  });

  it("meet every finding that they are about, told and silenced", () => {
    const stood = new Set<string>();
    let silenced = 0;
    for (let seed = first; seed < first + 700; seed++) {
      const verdicts = judged(scenario(seed));
      for (const { name } of verdicts.stands) stood.add(name);
      silenced += verdicts.silenced.length;
    }
    expect([...known].filter((name) => !stood.has(name))).toEqual([]);
    expect(silenced).toBeGreaterThan(50);
  });
});
