/** What is the same at every step of an input needs no decision; what is not is decided at each. By hand, on plain fractions. */
import { describe, expect, it } from "vitest";
import { cover } from "../../language/proof/cover.ts";
import type { Axis } from "../../language/proof/interval.ts";
import { Exact } from "../../language/quantities/exact.ts";

const of = (text: string) => Exact.of(text);

function axis(low: string, high: string, step?: string): Axis {
  return {
    range: { low: of(low), high: of(high), lowIn: true, highIn: true },
    step: step === undefined ? undefined : of(step),
  };
}

/** The pieces of a figure that is rounded down to whole numbers, each with what it comes to at its point. */
function whole(axes: readonly Axis[], figure: (inputs: Exact[]) => Exact) {
  const { pieces } = cover(axes, (trace) => {
    const found = figure(axes.map((_, k) => trace.input(k))).floor();
    found.isAbove(of("1000"));
    return found;
  });
  return pieces.map(({ point, result }) => ({ point, result }));
}

describe("a figure rounded to whole steps", () => {
  it.each([
    ["0.2 to a step of 5", axis("25", "40", "5"), "0.2", "0"],
    ["with the same fraction at every step", axis("25", "40", "5"), "0.2", "0.4"],
    ["and falling", axis("25", "40", "5"), "-0.2", "0.4"],
    ["from a lower end that is no step of 0", axis("2.3", "9.3", "0.5"), "2", "0.1"],
  ])("is one piece: %s", (_, range, factor, more) => {
    const pieces = whole([range], ([x]) => x!.times(of(factor)).plus(of(more)));
    expect(pieces).toHaveLength(1);
    const [{ point, result }] = pieces as [(typeof pieces)[number]];
    const there = point[0]!.times(of(factor)).plus(of(more)).floor();
    expect(result.plain().key()).toBe(there.key());
  });

  it("is still followed behind the rounding: its place above a limit is found exactly", () => {
    // Steps of 1 from 1 to 100: floor(2x + 0.5) = 2x, above 50 from x = 26 on.
    const { pieces } = cover([axis("1", "100", "1")], (trace) =>
      trace.input(0).times(of("2")).plus(of("0.5")).floor().isAbove(of("50")),
    );
    const found = pieces.map(({ box, result }) => [box[0]!.low.toText(), box[0]!.high.toText(), result]);
    expect(found.sort((a, b) => Number(a[0]) - Number(b[0]))).toEqual([
      ["1", "25", false],
      ["26", "100", true],
    ]);
  });

  it.each([
    ["0.3 to a step of 5", axis("25", "40", "5"), (x: Exact) => x.times(of("0.3"))],
    ["any value", axis("25", "40"), (x: Exact) => x.times(of("0.2"))],
    ["a square", axis("1", "4", "0.5"), (x: Exact) => x.times(x)],
    ["a quotient", axis("1", "4", "1"), (x: Exact) => of("10").over(x)],
  ])("is decided piece by piece: %s", (_, range, figure) => {
    const pieces = whole([range], ([x]) => figure(x!));
    expect(pieces.length).toBeGreaterThan(1);
    for (const { point, result } of pieces) expect(result.plain().key()).toBe(figure(point[0]!).floor().key());
  });

  it("of two inputs is one piece where both are in step, and not where one is", () => {
    const sum = ([x, y]: Exact[]) => x!.plus(y!.times(of("0.5")));
    expect(whole([axis("1", "9", "1"), axis("2", "8", "2")], sum)).toHaveLength(1);
    expect(whole([axis("1", "9", "1"), axis("1", "8", "1")], sum).length).toBeGreaterThan(1);
    // A product changes by what the other input is.
    expect(whole([axis("0.5", "4.5", "1"), axis("1", "8", "1")], ([x, y]) => x!.times(y!)).length).toBeGreaterThan(1);
  });
});
