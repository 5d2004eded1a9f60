/**
 * Every number on a sheet is traced back: what the page shows stands in the data, and what the data says is worked out again here
 * from a run of its own, from the texts of the library, or by arithmetic with another library.
 */
import { Decimal } from "decimal.js";
import { describe, expect, it } from "vitest";
import { codeSvg } from "../../client/cli/sheet-code.ts";
import { kindUnits } from "../../language/bench/amounts.ts";
import { runRecipe } from "../../language/bench/run.ts";
import { vesselsOf } from "../../language/bench/setup.ts";
import { allVerbs } from "../../language/bench/verbs/index.ts";
import { fingerprintOf } from "../../language/compare/fingerprint.ts";
import type { Recipe } from "../../language/model/declaration.ts";
import { Exact } from "../../language/quantities/exact.ts";
import { inBase, showQuantity } from "../../language/quantities/quantity.ts";
import { convert } from "../../language/quantities/substance.ts";
import { findUnit } from "../../language/quantities/unit.ts";
import { orderPoint } from "../../language/sheet/order-point.ts";
import { inPrintedNames } from "../../language/sheet/product.ts";
import { allSaid, type Said } from "../../language/sheet/said.ts";
import { sheetHtml, shortFingerprint } from "../../language/sheet/sheet-html.ts";
import { libraryOf, numbersIn, readable, sheetFrom, textsOf } from "./sample-sheets.ts";

const inputsOf: Record<string, [string, string][]> = {
  "vancomycin-loading": ["40kg", "50.1kg", "62.3kg", "80kg", "95.5kg", "120kg"].map((w) => ["weight", w]),
  "paclitaxel-banded": ["1.4m2", "1.63m2", "1.7m2", "2m2"].map((a) => ["body-surface", a]),
};

const given = { number: "KQ-0417", revision: "3" };

function sheetsOf(folder: string) {
  const texts = textsOf(folder);
  const library = libraryOf(texts);
  const recipes = library.ofKind("recipe") as Recipe[];
  const findings = new Set(library.files().flatMap((f) => library.findings(f).map((x) => x.message)));
  return recipes.flatMap((recipe) => {
    const cases = inputsOf[recipe.name.name]?.map((pair) => new Map([pair])) ?? [new Map<string, string>()];
    return cases.map((inputs) => {
      const point = orderPoint(recipe, inputs);
      if ("refusal" in point) throw new Error(String(point.refusal));
      const { lookup, policy } = library.surroundings();
      const run = runRecipe(recipe, lookup, policy, { point, overfill: "label" });
      const fingerprint = fingerprintOf(recipe, library);
      const printed = new Set([...findings].map((text) => inPrintedNames(text, lookup, run.groups)));
      const sheet = sheetFrom(library, recipe.name.name, { inputs, ...given });
      return {
        name: `${recipe.name.name} ${[...inputs.values()].join()}`,
        sheet,
        run,
        texts,
        inputs,
        findings,
        printed,
        fingerprint,
      };
    });
  });
}

type Case = ReturnType<typeof sheetsOf>[number];
const cases = ["library", "library-containment"].flatMap(sheetsOf);

describe("each sheet of the samples", () => {
  it("is made for all of them", () => {
    expect(cases.length).toBeGreaterThan(55);
  });

  it.each(cases.map((c) => [c.name, c] as const))("%s prints no number that is not in its data", (_, { sheet }) => {
    const known = new Set(allSaid(sheet).flatMap((s) => numbersIn(s.text)));
    // Names of materials (`needle-2`) are names, not figures; the recipe's own name heads each page.
    const names = new Set([...sheet.materials.map((m) => m.name), sheet.recipe].flatMap(numbersIn));
    // The head of each page has the beginning of a fingerprint that stands in full on the first.
    const page = readable(sheetHtml(sheet, codeSvg)).replaceAll(
      `fingerprint ${shortFingerprint(sheet.fingerprint.text)}`,
      "",
    );
    const printed = numbersIn(page);
    expect(printed.filter((n) => !known.has(n) && !names.has(n))).toEqual([]);
    expect(printed.length).toBeGreaterThan(30);
  });

  it.each(cases.map((c) => [c.name, c] as const))("%s says what the bench and the library say", (_, c) => {
    const wrong = allSaid(c.sheet).filter((said) => !holds(said, c));
    expect(wrong.map((s) => `${s.text} (${JSON.stringify(s.from.kind)})`)).toEqual([]);
  });
});

function holds(said: Said, c: Case): boolean {
  const { from, text } = said;
  switch (from.kind) {
    case "bench":
      return benchHolds(said, c);
    case "written":
      return numbersIn(text).every((n) => sourceText(c).includes(n)) || text.startsWith("stated limit");
    case "shelf":
      return sourceText(c).includes(`"${from.lot}"`) && numbersIn(text).every((n) => sourceText(c).includes(n));
    case "step":
      return stepHolds(from.number, text, c);
    case "fixed":
      return numbersIn(text).every((n) => fixedNumbers.has(n) || sourceText(c).includes(n));
    case "working":
      return workingHolds(text);
    case "asked":
      return [given.number, given.revision, "2026-11-25 09:30", ...inputTexts(c)].includes(text);
    case "time":
      return timeHolds(text, c);
    case "count":
      return countHolds(from.what, text, c);
    case "meaning":
      return from.what === "fingerprint" && text === c.fingerprint;
    case "finding":
      return c.findings.has(text) || c.printed.has(text) || text.includes("at this order the step moves");
  }
}

const fixedNumbers = new Set(allVerbs.flatMap((v) => v.cautions.flatMap((caution) => numbersIn(caution.text))));

const joined = new Map<object, string>();
function sourceText({ texts }: Case): string {
  const known = joined.get(texts) ?? [...Object.values(texts), builtIn].join("\n");
  joined.set(texts, known);
  return known;
}
/** Of the built-in devices: capacities, marks, gauges and pores stand in their own text. */
const builtIn = "0.01 0.1 0.2 1 2 3 5 10 16 18 19 20 21 23 25 27 30 50 60 0.2 1.2 5 1 mL";

function inputTexts({ inputs }: Case): string[] {
  return [...inputs.values()].map((v) => v.replace(/^([\d.]+)(\D+.*)$/, "$1 $2"));
}

/** Worked out again from this test's own run. */
function benchHolds({ text, from }: Said, { run }: Case): boolean {
  if (from.kind !== "bench") return false;
  const shown = text === showQuantity(from.value) || text.startsWith(`${showQuantity(from.value)} `);
  const [what, ...rest] = from.figure.split(" ");
  if (what === "dose") {
    const dose = run.doses.find((d) => d.drug === rest[0])?.given;
    return shown && dose !== undefined && inBase(dose).equals(inBase(from.value));
  }
  if (what === "step") {
    const moved = run.steps.find((s) => s.number === Number(rest[0]))?.moved;
    return shown && (moved?.equals(inBase(from.value)) ?? false);
  }
  if (what === "each") {
    const served = run.steps.find((s) => s.number === Number(rest[0]))!.movements.filter((m) => m.how !== "draw");
    return shown && served.length > 1 && served.every((m) => m.moved.equals(inBase(from.value)));
  }
  if (what === "left") {
    const left = vesselsOf(run.groups.get(rest.join(" "))).reduce((sum, v) => sum.plus(v.liquid.volume), Exact.zero);
    return shown && left.equals(inBase(from.value));
  }
  if (what === "pump") return shown && from.value.unit.spelling === "mL/h";
  if (what === "rate") return shown;
  const vessel = vesselsOf(run.groups.get(rest.at(-2)!))[Number(rest.at(-1)) - 1];
  if (!vessel) return false;
  if (what === "volume") return shown && vessel.liquid.volume.equals(inBase(from.value));
  const drug = rest[0]!;
  const kind = run.setup.kinds.get(drug)!;
  const of = run.setup.drugs.get(drug)!.substance;
  const ion = run.doses.find((d) => d.drug === drug)?.ion;
  const held = vessel.liquid.amounts.get(drug)!;
  const unit = what === "amount" ? kindUnits[kind] : undefined;
  // Back from the unit shown to the unit kept: the printed figure must stand for exactly what is in the container.
  if (unit) {
    const back = convert(from.value, unit, of, ion);
    return shown && !("refused" in back) && back.value.equals(held);
  }
  const perMl = held.over(vessel.liquid.volume);
  const numerator = convert({ value: perMl, unit: kindUnits[kind] }, unitAbove(from.value.unit.spelling), of, ion);
  return shown && !("refused" in numerator) && inBase(numerator).equals(inBase(from.value));
}

function unitAbove(spelling: string) {
  const unit = allUnits.get(spelling.split("/")[0]!);
  if (!unit) throw new Error(`no unit above the line in ${spelling}`);
  return unit;
}
const allUnits = new Map(["g", "mg", "mcg", "mmol", "mEq", "units", "milliunits"].map((u) => [u, findUnit(u).unit!]));

function stepHolds(number: number, text: string, { run, sheet }: Case): boolean {
  const done = run.steps.find((s) => s.number === number);
  const planned = done && run.plan.steps.find((p) => p.step === done.step);
  if (!done || !planned) return false;
  const sentence = planned.verb.sentence(planned.slots as never, done);
  const skipped = sheet.steps.some((s) => s.kind === "skipped" && s.sentence.text === text);
  // The verb of `make up` is `make`.
  const verb = done.verb === "make" ? "make up" : done.verb;
  return text === sentence || text === `Step ${number}, ${verb}` || skipped;
}

function countHolds(what: string, text: string, { run, sheet }: Case): boolean {
  const [kind, ...names] = what.split(" ");
  if (kind === "containers") {
    const all = names.reduce((sum, name) => sum + run.groups.get(name)!.things.length, 0);
    return text.startsWith(`${all} `);
  }
  if (kind === "made") return text.startsWith(`${sheet.labels.length} `);
  if (kind === "labels") return /^\d+ of \d+$/.test(text) && text.endsWith(` ${run.finals.length}`);
  return /^\d+$/.test(text) && Number(text) <= run.recipe.steps.length;
}

/** Hours and days after the time of preparation, by the platform's own clock (the samples' site is on UTC). */
function timeHolds(text: string, { run }: Case): boolean {
  const start = Date.UTC(2026, 10, 25, 9, 30);
  const limits = run.recipe.preparations.flatMap((p) =>
    p.facts.all("use-within").map(({ slots }) => {
      const [amount, unit] = slots.time.written.split(" ");
      const hours = Number(amount) * (unit === "h" ? 1 : 24);
      return new Date(start + hours * 3_600_000).toISOString().slice(0, 16);
    }),
  );
  const compact = limits.map((l) => l.slice(2).replace(/[-T:]/g, ""));
  if (text.startsWith("(")) {
    const codes = text.match(/\(\d+\)/g) ?? [];
    return (
      codes.every((ai) => ["(91)", "(92)", "(93)", "(94)"].includes(ai)) &&
      (text.includes("(93)") ? compact.some((k) => text.includes(k)) : true)
    );
  }
  return limits.some((l) => text.startsWith(l.replace("T", " ")));
}

/** Sums and quotients, with another library; a result to four figures may be off by half of the last. */
function workingHolds(text: string): boolean {
  const plain = text.replaceAll(",", "");
  const sum = /^([\d.]+) mL((?: [+−] [\d.]+ mL)+) = ([\d.]+) mL/.exec(plain);
  if (sum && !plain.includes("(")) {
    const terms = [...sum[2]!.matchAll(/([+−]) ([\d.]+)/g)].map(([, sign, n]) =>
      new Decimal(n!).times(sign === "+" ? 1 : -1),
    );
    return terms.reduce((total, n) => total.plus(n), new Decimal(sum[1]!)).equals(sum[3]!);
  }
  const times = /^([\d.]+) \S+ × ([\d.]+) \S+ = ([\d.]+) /.exec(plain);
  if (times) return new Decimal(times[1]!).times(times[2]!).equals(times[3]!);
  const quotient =
    /([\d.]+) (\S+)(?: \(to four figures\))? ÷ ([\d.]+) (\S+)(?: \(to four figures\))? = ([\d.]+) (\S+)/.exec(plain);
  if (!quotient) return !text.includes("÷") && !text.includes("×");
  const exact = new Decimal(quotient[1]!).div(quotient[3]!);
  const factor = new Decimal(quotient[5]!).div(exact);
  // What the units stand apart: powers of ten (mg and g, mL and L) and minutes to hours.
  return [1, 10, 1e3, 1e6, 1e-3, 1e-6, 60, 6e4].some((f) => factor.div(f).minus(1).abs().lessThan(0.0006));
}

it("a step that serves each of a set shows what each gets, never the sum, which no scale shows", () => {
  const sheet = sheetFrom(libraryOf(textsOf("library")), "ceftriaxone-1g-batch", { ...given, inputs: new Map() });
  // By the recipe: 10 mL out of each of four bags, and 10 mL into each.
  const [withdrawn, injected] = [8, 14].map((n) => sheet.steps.find((s) => s.number.text === String(n))!);
  expect(withdrawn!.sentence.text).toMatch(/^Withdraw 10 mL from each of bags/);
  expect([withdrawn, injected].map((s) => s!.figure?.text)).toEqual(["10 mL each", "10 mL each"]);
});
