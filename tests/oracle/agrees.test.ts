/**
 * The bench against a second simulator that was written from the pages of the language alone and shares nothing with it: some 1,500
 * preparations by their seeds, every figure to the last digit, and nothing lost on the way. Each stands as a recipe that is right, so that
 * no error may be told of it. MISCE_LONG=1 makes 20,000 of them, MISCE_SEED begins elsewhere.
 */
import { describe, expect, it } from "vitest";
import type { Run } from "../../language/bench/run.ts";
import { differences } from "./compare.ts";
import { program, shapeNames } from "./generate.ts";
import { Told } from "./language-run.ts";
import { lawsBroken } from "./laws.ts";
import { patientsOf } from "./patients.ts";
import type { Patient, Program } from "./program.ts";
import { carriedOut } from "./run.ts";
import { type Written, written } from "./write-recipe.ts";

const isLong = process.env.MISCE_LONG === "1";
const first = Number(process.env.MISCE_SEED ?? 0);
const count = isLong ? 20_000 : 1_500;
/** Findings cost more than the run itself; every so many programs are asked for theirs. */
const findingsEvery = isLong ? 1 : 12;
/** So with the runs for the least and the most overfill. */
const overfillEvery = isLong ? 1 : 4;

const shown = ({ shape }: Program, seed: number, what: readonly string[]): string =>
  `MISCE_SEED=${seed} (${shape}): ${what.slice(0, 3).join("; ")}`;

/** Both ends of the order's range and the middle of it. */
function sampled(each: Program): Patient[] {
  const all = patientsOf(each);
  return [...new Set([all[0], all[Math.floor(all.length / 2)], all.at(-1)])];
}

function compared(each: Program, { text, stepOf }: Written, withOverfill: boolean): string[] {
  const told = new Told(text);
  const hasOverfill = withOverfill && each.stocks.some(({ overfill }) => overfill);
  return sampled(each).flatMap((patient) => {
    const point: Run["point"] = patient ? told.point(each.order.range!.of, patient.toString()) : new Map();
    const run = told.run(point);
    const ours = carriedOut(each, patient);
    const found = [...differences(each, ours, run, stepOf), ...lawsBroken(ours.program, run)];
    if (!hasOverfill) return found;
    for (const filling of ["least", "most"] as const) {
      const really = carriedOut(each, patient, filling, ours.volumes);
      const others = differences(each, really, told.run(point, filling, run), stepOf);
      found.push(...others.map((other) => `with the ${filling} overfill: ${other}`));
    }
    return found;
  });
}

describe("the bench and a second simulator", () => {
  it(`come to the same for ${count} preparations`, { timeout: 600_000 }, () => {
    const found: string[] = [];
    for (let seed = first; seed < first + count; seed++) {
      const each = program(seed);
      const differing = compared(each, written(each), Math.floor(seed / shapeNames.length) % overfillEvery === 0);
      if (differing.length > 0) found.push(shown(each, seed, differing));
    }
    expect(found).toEqual([]);
  });

  it("know no error in what is right", { timeout: 600_000 }, () => {
    const found: string[] = [];
    // A step of one more than a multiple of the shapes goes through all of them.
    for (let i = 0; i < count / findingsEvery; i++) {
      const seed = first + (isLong ? i : i * (shapeNames.length * 2 + 1));
      const each = program(seed);
      const { errors } = new Told(written(each).text);
      if (errors.length > 0)
        found.push(
          shown(
            each,
            seed,
            errors.map(({ name, message }) => `${name}: ${message}`),
          ),
        );
    }
    expect(found).toEqual([]);
  });

  it("see every shape of preparation", () => {
    const seeds = Array.from({ length: shapeNames.length }, (_, i) => program(first + i).shape);
    expect(new Set(seeds)).toEqual(new Set(shapeNames));
  });
});
