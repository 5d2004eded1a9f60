/**
 * The published figures on syringes (tests/reference/measuring/syringes.json, each row with its source), through the bench: what a
 * syringe may deliver beside its scale, its marks, its dead space, and the smallest and largest part of it worth using. Rows that
 * no recipe can show stand in `notShown` with the reason.
 */
import { describe, expect, it } from "vitest";
import { pointAt } from "../../language/bench/order.ts";
import { runRecipe } from "../../language/bench/run.ts";
import { sourcesOf } from "../../language/bench/uncertainty.ts";
import { Library } from "../../language/library.ts";
import type { Recipe } from "../../language/model/declaration.ts";
import { Exact } from "../../language/quantities/exact.ts";
import { inBase, measure } from "../../language/quantities/quantity.ts";
import table from "./measuring/syringes.json";

interface Figure {
  value: string;
  unit: string;
}
interface Row {
  id: string;
  kind: string;
  verified: string;
  plusMinus?: { percentOfNominal?: string; percentOfExpelled?: string };
  nominal?: Figure;
  expelled?: Figure;
  plusMinusAbsolute?: Figure;
  plusMinusRelative?: Figure;
  max?: Figure;
  nominals?: Figure[];
  interval?: Figure;
  minFractionOfNominal?: string;
  minVolume?: Figure;
  maxNominalOverVolume?: string;
  maxFractionOfNominal?: { low: string; high: string };
  volume?: Figure;
  choose?: Figure;
  avoid?: Figure;
  split?: { part: Figure; syringe: Figure }[];
}

const read = (table.rows as unknown as Row[]).filter((r) => r.verified === "read");
const row = (id: string) => read.find((r) => r.id === id)!;
const tested = new Set<string>();

/** Row → why no recipe can show it. */
const notShown: Readonly<Record<string, string>> = {};
const because = (reason: string, ...ids: string[]) => {
  for (const id of ids) (notShown as Record<string, string>)[id] = reason;
};
because(
  "The size is not among the built-in devices; a library that has it declares its dead space.",
  "iso7886-dead-space-b2",
);
because(
  "What a study found with some syringes; nothing in it is a limit.",
  "min-fraction-study-errors",
  "gerpac-error-3",
  "gerpac-50ml-60",
  "dead-space-fail-5",
  "dead-space-fail-10",
  "dead-space-1-2.5",
  "dead-space-20-60",
);
because(
  "The dead space of a needle is left to the step: it says whether it counts.",
  "needle-dead-space-18",
  "needle-dead-space-21-23",
);
because("No syringe: a recipe measures with syringes.", "pharmacopoeia-cylinder-40", "cylinder-2-of-10");
because("Of the test of a container's content, not of a preparation.", "pharmacopoeia-needle");
because("Advice without a figure; the share of the capacity stands for it.", "smallest-device");
because(
  "Which edition of the standard holds.",
  "iso-edition-1993",
  "iso-edition-2017",
  "iso-edition-cn",
  "iso-edition-in",
  "iso-edition-jp",
  "iso-test-temperature",
);
because(
  "The scale of an insulin syringe counts units, and its columns were read out of order; a library declares such a device.",
  "insulin-1",
  "insulin-2",
  "insulin-3",
  "insulin-4",
  "insulin-5",
  "insulin-6",
  "insulin-tol-half",
  "insulin-tol-below",
);
because("Told by a check of its own (scale-for-other-strength), not by a figure.", "insulin-u500");
because(
  "Weighing is outside the language.",
  "balance-lwq",
  "balance-sr",
  "balance-5pct",
  "balance-ex-1",
  "balance-ex-2",
  "usp-about-10",
  "usp-accurately-weighed",
);

const text = (figure: Figure) => `${figure.value} ${figure.unit}`;
const millilitres = (figure: Figure) => inBase(measure(text(figure)));

/** A library in which so much is drawn into a syringe of this size. */
function drawing(volume: string, syringe: string, site = "", device = ""): Library {
  const library = new Library({ asOf: "2026-11-25" });
  library.open(
    "draw.misce",
    `site {
  name  "Kestrel Quay Infirmary"
  ${site}
}
${device}
drug remedy {
  name  "remedy"
}
stock source {
  drug       remedy
  container  vial
  strength   1 mg/mL
  fill       100 mL
}
stock flask {
  container  empty-bag
  capacity   500 mL
}
recipe draw {
  title  "Remedy"
  order {
    drug   remedy
    route  intravenous
  }
  materials {
    vial     source
    flask    flask
    syringe  ${syringe}
  }
  steps {
    draw ${volume} from vial into syringe
    inject syringe into flask
  }
  preparation flask {
    form  solution-for-infusion
  }
}
`,
  );
  return library;
}

function found(library: Library, name: string): boolean {
  const names = library.findings("draw.misce").map((f) => f.name);
  // What is not understood as it was meant must not pass as silent.
  expect(names.filter((n) => /not-understood|unknown/.test(n))).toEqual([]);
  return names.includes(name);
}

const sized = (capacity: Figure, graduation = "") =>
  `device other {\n  kind        syringe\n  capacity    ${text(capacity)}\n${graduation && `  graduation  ${graduation}\n`}}`;

/** mL that the scale may be off, as the bench reckons it for the draw. */
function allowed(capacity: Figure, volume: Figure): Exact {
  const library = drawing(text(volume), "other", "", sized(capacity));
  const recipe = library
    .chunks("draw.misce")
    .flatMap((c) => c.reading.declarations)
    .find((d): d is Recipe => d.kind === "recipe")!;
  const { lookup, policy } = library.surroundings();
  const run = runRecipe(recipe, lookup, policy, { point: pointAt(recipe, "from"), overfill: "label" });
  const [draw] = sourcesOf(run).filter((s) => s.what === "syringe");
  return draw!.allows as Exact;
}

const mL = (value: string): Figure => ({ value, unit: "mL" });

describe("what a syringe may deliver beside its scale", () => {
  it.each(read.filter((r) => r.kind === "derived-tolerance"))("$id", (each) => {
    tested.add(each.id);
    const off = allowed(each.nominal!, each.expelled!);
    expect(off.equals(millilitres(each.plusMinusAbsolute!)), off.toText()).toBe(true);
    const share = off.over(millilitres(each.expelled!)).times(Exact.of(100));
    expect(share.roundedToDigits(3).equals(Exact.of(each.plusMinusRelative!.value).roundedToDigits(3))).toBe(true);
  });

  it.each([
    ["iso7886-tol-below-half-b1", "1", "0.3"],
    ["iso7886-tol-from-half-b1", "1", "0.7"],
    ["iso7886-tol-below-half-b4", "10", "3"],
  ])("%s", (id, capacity, volume) => {
    tested.add(id);
    const { percentOfNominal = "0", percentOfExpelled = "0" } = row(id).plusMinus!;
    const hundredth = Exact.ratio(1, 100);
    const expected = Exact.of(capacity)
      .times(Exact.of(percentOfNominal))
      .plus(Exact.of(volume).times(Exact.of(percentOfExpelled)))
      .times(hundredth);
    expect(allowed(mL(capacity), mL(volume)).equals(expected)).toBe(true);
  });
});

describe("the built-in syringes", () => {
  const { lookup } = drawing("1 mL", "syringe-3mL").surroundings();
  const figureOf = (capacity: string, word: "graduation" | "dead-space") => {
    const { facts } = lookup.find("device", `syringe-${capacity}mL`)!;
    return word === "graduation" ? facts.one("graduation")?.slots.interval : facts.one("dead-space")?.slots.volume;
  };

  it.each([
    ["iso7886-dead-space-b1", "1"],
    ["iso7886-dead-space-b3", "5"],
    ["iso7886-dead-space-b4", "10"],
  ])("have the dead space of %s", (id, capacity) => {
    tested.add(id);
    const own = figureOf(capacity, "dead-space")!;
    expect(inBase(own.quantity!).equals(millilitres(row(id).max!))).toBe(true);
  });

  it.each(["gerpac-grad-5-10", "gerpac-grad-30-50", "teach-grad-1-tb", "teach-grad-3", "teach-grad-5-10"])(
    "are marked as %s",
    (id) => {
      tested.add(id);
      for (const { value } of row(id).nominals!) {
        const own = figureOf(value, "graduation")!;
        expect(inBase(own.quantity!).equals(millilitres(row(id).interval!)), `${value} mL`).toBe(true);
      }
    },
  );

  it("may be another of the same size that a library declares: teach-grad-1", () => {
    tested.add("teach-grad-1");
    const device = sized(mL("1"), text(row("teach-grad-1").interval!));
    expect(found(drawing("0.4 mL", "other", "", device), "not-on-graduation")).toBe(false);
    expect(found(drawing("0.45 mL", "other", "", device), "not-on-graduation")).toBe(true);
    expect(found(drawing("0.45 mL", "syringe-1mL"), "not-on-graduation")).toBe(false);
  });
});

describe("the smallest part of a syringe worth using", () => {
  const small = "too-small-to-measure";
  it.each([
    ["min-fraction-20-study", "10", "2", "1.8", ""],
    ["min-fraction-20-training", "10", "2", "1.8", ""],
    ["batch-example-training", "30", "6", "5", ""],
    ["fill-20-letter", "10", "2", "1.8", ""],
    ["preferred-fraction-50-training", "10", "5", "4.8", "smallest-share  50 %"],
    ["enteral-1ml-025", "1", "0.25", "0.24", "smallest-share  25 %"],
    // A third: 33.4 % lets 4 mL in 10 mL pass and not 3.2 mL.
    ["pharmacopoeia-third", "10", "3.4", "3.2", "smallest-share  33.4 %"],
  ])("%s", (id, capacity, keeps, breaks, site) => {
    tested.add(id);
    const { minFractionOfNominal, minVolume, maxNominalOverVolume } = row(id);
    const least = minVolume
      ? millilitres(minVolume)
      : Exact.of(capacity).times(
          minFractionOfNominal ? Exact.of(minFractionOfNominal) : Exact.of(maxNominalOverVolume!).reciprocal(),
        );
    expect(Exact.of(keeps).isAtLeast(least) && Exact.of(breaks).isBelow(least)).toBe(true);
    expect(found(drawing(`${keeps} mL`, `syringe-${capacity}mL`, site), small)).toBe(false);
    expect(found(drawing(`${breaks} mL`, `syringe-${capacity}mL`, site), small)).toBe(true);
  });
});

describe("the largest part of a syringe to fill", () => {
  it.each(["low", "high"] as const)("fill-max-letter, %s", (end) => {
    tested.add("fill-max-letter");
    const share = Exact.of(row("fill-max-letter").maxFractionOfNominal![end]);
    const site = `largest-share  ${share.times(Exact.of(100)).toText()} %`;
    const most = share.times(Exact.of(20));
    expect(found(drawing(`${most.toText()} mL`, "syringe-20mL", site), "syringe-too-full")).toBe(false);
    expect(found(drawing(`${most.plus(Exact.one).toText()} mL`, "syringe-20mL", site), "syringe-too-full")).toBe(true);
  });

  it("fill-example-18", () => {
    tested.add("fill-example-18");
    const { volume, choose, avoid } = row("fill-example-18");
    const site = "largest-share  80 %";
    const full = (size: Figure) => found(drawing(text(volume!), `syringe-${size.value}mL`, site), "syringe-too-full");
    expect([full(choose!), full(avoid!)]).toEqual([false, true]);
  });

  it("fill-example-2", () => {
    tested.add("fill-example-2");
    const { volume, choose, avoid } = row("fill-example-2");
    const site = "smallest-share  50 %";
    const small = (size: Figure) =>
      found(drawing(text(volume!), `syringe-${size.value}mL`, site), "too-small-to-measure");
    expect([small(choose!), small(avoid!)]).toEqual([false, true]);
  });

  it("split-example-21.7", () => {
    tested.add("split-example-21.7");
    const { volume, split } = row("split-example-21.7");
    const between = (part: Figure, size: Figure) =>
      found(drawing(text(part), `syringe-${size.value}mL`), "not-on-graduation");
    expect(between(volume!, split![0]!.syringe)).toBe(true);
    expect(split!.map(({ part, syringe }) => between(part, syringe))).toEqual([false, false]);
  });
});

it("has each row that was read in a test or with a reason", () => {
  expect(read).toHaveLength(68);
  expect(read.filter((r) => tested.has(r.id) === (notShown[r.id] !== undefined)).map((r) => r.id)).toEqual([]);
  expect(Object.keys(notShown).filter((id) => !row(id))).toEqual([]);
});
