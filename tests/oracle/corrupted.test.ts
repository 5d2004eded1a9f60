/**
 * One figure of a right program is made wrong, by a factor or by its unit. Whether that changes anything that is stated, the second
 * simulator knows: where it does, an error must be told, and where all still fits together, none. What is told must lead to the line of
 * the slip, by its own place, one beside it or the figure itself, but for a few: conditions, overfill and fills, of which the doses and
 * volumes that come of them are told. MISCE_LONG=1 takes 20,000 programs, MISCE_SEED begins elsewhere.
 */
import { describe, expect, it } from "vitest";
import { TooMany } from "./bench-top.ts";
import { type Corrupted, corrupted } from "./corrupt.ts";
import { faultsOf } from "./faults.ts";
import { figureText } from "./figure.ts";
import { program, shapeNames } from "./generate.ts";
import { Told } from "./language-run.ts";
import { leadsTo, slipIn } from "./placed.ts";
import { Random } from "./random.ts";
import { written } from "./write-recipe.ts";

const isLong = process.env.MISCE_LONG === "1";
const first = Number(process.env.MISCE_SEED ?? 0);
const count = isLong ? 20_000 : 160;

/** Share of the slips that are told only where they show. */
const mostElsewhere = 0.07;

/**
 * What the oracle finds wrong; a figure that it can make nothing of is wrong too. Undefined where it takes more than a hundred of one
 * product, of which nobody judges.
 */
function faults({ program: spoilt }: Corrupted): string[] | undefined {
  try {
    return faultsOf(spoilt);
  } catch (stopped) {
    if (stopped instanceof TooMany) return undefined;
    if (stopped instanceof RangeError) return [stopped.message];
    throw stopped;
  }
}

describe("a figure that is wrong", () => {
  it("is told where it changes anything, and only there", { timeout: 1_200_000 }, () => {
    const silent: string[] = [];
    const alarms: string[] = [];
    const elsewhere: string[] = [];
    const counts = { wrong: 0, harmless: 0 };
    for (let i = 0; i < count; i++) {
      const seed = first + (isLong ? i : i * (shapeNames.length * 3 + 1));
      const spoilt = corrupted(program(seed), new Random(seed + 7919));
      if (!spoilt) continue;
      const wrong = faults(spoilt);
      if (!wrong) continue;
      counts[wrong.length > 0 ? "wrong" : "harmless"]++;
      const { text } = written(spoilt.program);
      const { errors, findings } = new Told(text);
      const what = `MISCE_SEED=${seed} ${spoilt.path.join(".")}: ${figureText(spoilt.from)} as ${figureText(spoilt.to)}`;
      const slip = slipIn(written(program(seed)).text, text);
      const isFound = findings.some((f) => f.severity !== "note" && leadsTo(slip, figureText(spoilt.to), f));
      if (wrong.length > 0 && !isFound) elsewhere.push(what);
      if (wrong.length > 0 && errors.length === 0) silent.push(`${what}; ${wrong[0]}`);
      if (wrong.length === 0 && errors.length > 0) alarms.push(`${what}; ${errors[0]!.name}: ${errors[0]!.message}`);
    }
    expect({ silent, alarms }).toEqual({ silent: [], alarms: [] });
    expect(elsewhere.length, elsewhere.join("\n")).toBeLessThan(counts.wrong * mostElsewhere);
    expect(counts.wrong).toBeGreaterThan(count / 2);
    expect(counts.harmless).toBeGreaterThan(count / 20);
  });
});
