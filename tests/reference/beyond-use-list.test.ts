/**
 * The list of all limits of a finished container, and which binds. Rules: tests/reference/practice/beyond-use-dates.json,
 * bud-min-of-stability-and-table and bud-not-past-component-expiry ("the earliest expiry date of any manufactured component", Wis.
 * Phar 15.37). Figures of the table: Wis. Phar 15.37 (category 2, aseptic, untested: 4 days, 10 days, 45 days). Others invented.
 */
import { describe, expect, it } from "vitest";
import { type UseLimits, useLimits } from "../../language/bench/beyond-use.ts";
import { pointAt } from "../../language/bench/order.ts";
import { runRecipe } from "../../language/bench/run.ts";
import { example, powderExample } from "../../language/checks/example.ts";
import { Library } from "../../language/library.ts";
import type { Recipe } from "../../language/model/declaration.ts";

function limitsOf(text: string, at: string, name = "magnesium-4g"): UseLimits {
  const library = new Library({ asOf: "2026-11-25" });
  library.open("example.misce", text);
  const around = library.surroundings();
  const recipe = library.declared(name).find((d): d is Recipe => d.kind === "recipe")!;
  const run = runRecipe(recipe, around.lookup, around.policy, { point: pointAt(recipe, "from"), overfill: "label" });
  return useLimits(run, run.finals[0]!, at, around);
}

const binds = (limits: UseLimits) => `${limits.binding?.kind} ${limits.binding?.name} ${limits.binding?.written}`;
const wisconsin: [string, string] = ["usp-797-2023 category 2", "wisconsin-phar-15 category 2"];
const stableFor = (time: string): [string, string] => ["    for            24 h\n", `    for            ${time}\n`];
const anyPlace: [string, string] = ["    at             room-temperature\n", "    at             any\n"];

describe("the limit that binds", () => {
  it("is the table where the drug is stable for longer", () => {
    const found = limitsOf(example(wisconsin, stableFor("9 days")), "room-temperature");
    expect(binds(found)).toBe("policy wisconsin-phar-15 category 2 4 days");
    expect(found.binding).toMatchObject({ footing: "read", counted: "from the start of preparation" });
    expect(found.open).toEqual([]);
  });
  it("is the drug where it is stable for less", () => {
    const found = limitsOf(example(wisconsin, stableFor("9 days"), anyPlace), "refrigerator");
    expect(binds(found)).toBe("stability magnesium-sulfate 9 days");
    expect(found.binding).toMatchObject({ footing: "declared", source: 'guide "table 7"', counted: "from mixing" });
    expect(found.all.map((l) => l.kind)).toEqual(["stability", "policy", "expiry", "expiry"]);
  });
  it("is the last lot where every one of them ends sooner", () => {
    const found = limitsOf(
      example(wisconsin, ['"KQ-2291"  expires 2027-04', '"KQ-2291"  expires 2026-11-25']),
      "room-temperature",
    );
    expect(binds(found)).toBe("stability magnesium-sulfate 24 h");
    const longer = example(wisconsin, stableFor("3 days"), [
      '"KQ-2291"  expires 2027-04',
      '"KQ-2291"  expires 2026-11-25',
    ]);
    expect(binds(limitsOf(longer, "room-temperature"))).toBe("expiry magnesium-ampoule 2026-11-25");
    const second = longer.replace('lot "KQ-2291"', 'lot "KQ-9999"  expires 2027-05\n  lot "KQ-2291"');
    expect(binds(limitsOf(second, "room-temperature"))).toBe("stability magnesium-sulfate 3 days");
  });
  it("follows the preparation's own category: category 1 is 12 h at room temperature (Wis. Phar 15.37)", () => {
    const own = example(wisconsin, ["    form  ", "    category       1\n    form  "]);
    expect(binds(limitsOf(own, "room-temperature"))).toBe("policy wisconsin-phar-15 category 1 12 h");
  });
});

describe("what is left in opened products", () => {
  it("is listed with its limit and does not limit the mixture", () => {
    // Cal. 16 CCR 1751.9 and the chapter of 2023: an opened ampoule is not kept.
    const { all, binding } = limitsOf(example(), "room-temperature");
    const ampoule = all.find((l) => l.kind === "in-use" && l.name === "magnesium-ampoule");
    expect(ampoule).toMatchObject({ limits: false, written: "not kept once opened", footing: "read" });
    expect(binding?.kind).toBe("stability");
  });
  it("says that a multiple-dose product may have been opened before", () => {
    const vial = example(
      ["stock magnesium-ampoule {", 'stock magnesium-ampoule {\n  in-use     28 days  source guide "vials"'],
      ["  container  ampoule\n", "  container  vial\n"],
      [
        "  strength   500 mg/mL\n  fill       10 mL\n  doses      single",
        "  strength   500 mg/mL\n  fill       10 mL\n  doses      multiple",
      ],
    );
    const own = limitsOf(vial, "room-temperature").all.find(
      (l) => l.name === "magnesium-ampoule" && l.kind === "in-use",
    );
    expect(own).toMatchObject({ limits: false, written: "28 days", source: 'guide "vials"' });
    expect(own?.counted).toMatch(/opened before, only what is left/);
  });
});

describe("a clock that starts before mixing", () => {
  it("is counted from its own event, with the step", () => {
    const text = powderExample([
      '    source         guide "table 9"\n    in             sodium-chloride-0.9\n    at             room-temperature\n    concentration  any\n    made-of        any\n    light          any\n    counted-from   mixing\n',
      '    source         guide "table 9"\n    in             sodium-chloride-0.9\n    at             room-temperature\n    concentration  any\n    made-of        any\n    light          any\n    counted-from   reconstitution\n',
    ]);
    const found = limitsOf(text, "room-temperature", "vancomycin-500mg");
    expect(binds(found)).toBe("stability vancomycin 24 h");
    expect(found.binding?.counted).toMatch(/^from reconstitution in step \d+; the time from there/);
  });
});

describe("what could not be brought in", () => {
  it("is said, and nothing binds in its place", () => {
    const found = limitsOf(example(["usp-797-2023 category 2", "house-rules-2026"]), "cellar");
    expect(found.open).toEqual([
      "no policy is known by the name house-rules-2026",
      "no stability row of magnesium-sulfate holds for this mixture at cellar",
    ]);
    expect(found.binding?.kind).toBe("expiry");
  });
});
