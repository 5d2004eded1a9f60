/**
 * The published limits (tests/reference/practice/limits.json, each row with its source): stated as the drug's or the site's fact,
 * each is silent at its figure and told just beyond. Rows that say something else are computed below, or stand in `notLimits` with
 * the reason.
 */
import { describe, expect, it } from "vitest";
import { concentrationIn, run, volumeIn } from "../worked/recipe.ts";
import { inUnit } from "../worked/rows.ts";
import { type Limited, limitFindings } from "./limits-library.ts";
import table from "./practice/limits.json";

interface Row {
  id: string;
  value: string | null;
  unit: string | null;
  verified: string;
  source: { title: string; publisher: string };
}

const rows = table.rows as unknown as Row[];
const row = (id: string) => rows.find((r) => r.id === id)!;

/** The limit as a fact, and what keeps it and breaks it; `value` is put in from the row. */
interface Case {
  id: string;
  /** `{}` stands for the row's figure with its unit. */
  drug?: string;
  site?: string;
  unit: string;
  strength: string;
  order?: string;
  keeps: Pick<Limited, "dose" | "to"> & { order?: string };
  breaks: Pick<Limited, "dose" | "to"> & { order?: string };
  finds: string;
}

const kcl = 'formula  "KCl"\n  ion  potassium charge 1';
const nacl = 'formula  "NaCl"\n  ion  sodium charge 1\n  ion  chloride charge -1';
const litre = { to: "1 L" };
const peripheral = "access  peripheral";
const osm = (id: string, keeps: string, breaks: string): Case => ({
  id,
  site: "peripheral-osmolarity  up to {}",
  drug: nacl,
  unit: "mOsm/L",
  strength: "2 mmol/mL",
  order: peripheral,
  keeps: { dose: keeps, ...litre },
  breaks: { dose: breaks, ...litre },
  finds: "osmolarity-too-high-for-peripheral",
});

const strong = (
  id: string,
  fact: string,
  unit: string,
  strength: string,
  keeps: Case["keeps"],
  breaks: Case["breaks"],
  order = "",
  finds = "concentration-above-limit",
): Case => ({ id, drug: fact, unit, strength, order, keeps, breaks, finds });

const fast = (
  id: string,
  unit: string,
  drug: string,
  strength: string,
  keeps: string,
  breaks: string,
  dose: string,
): Case => ({
  id,
  drug: `${drug}\n  rate  up to {} for route intravenous`,
  unit,
  strength,
  keeps: { dose, to: "1 L", order: `infuse-over  ${keeps}` },
  breaks: { dose, to: "1 L", order: `infuse-over  ${breaks}` },
  finds: "rate-above-limit",
});

const limits: readonly Case[] = [
  osm("osm-periph-900", "450 mmol", "450.1 mmol"),
  osm("osm-periph-espen", "425 mmol", "425.1 mmol"),
  osm("osm-periph-espen-hi", "500 mmol", "500.1 mmol"),
  osm("osm-periph-ins", "300 mmol", "300.1 mmol"),
  strong(
    "dex-periph",
    'formula  "C6H12O6"\n  concentration  up to {} for route intravenous access peripheral',
    "% w/v",
    "500 mg/mL",
    { dose: "100 g", ...litre },
    { dose: "100.1 g", ...litre },
    peripheral,
  ),
  strong(
    "dex-central",
    "concentration  up to {} for route intravenous access central",
    "% w/v",
    "500 mg/mL",
    { dose: "350 g", ...litre },
    { dose: "350.1 g", ...litre },
    "access  central",
  ),
  strong(
    "k-periph-40",
    `${kcl}\n  concentration  up to {} for route intravenous access peripheral`,
    "mEq/L",
    "2 mEq/mL",
    { dose: "40 mEq", ...litre },
    { dose: "40.1 mEq", ...litre },
    peripheral,
  ),
  strong(
    "k-periph-80",
    `${kcl}\n  concentration  up to {} for route intravenous access peripheral`,
    "mEq/L",
    "2 mEq/mL",
    { dose: "80 mEq", ...litre },
    { dose: "80.1 mEq", ...litre },
    peripheral,
  ),
  strong(
    "k-central-only",
    `${kcl}\n  concentration  below {} for route intravenous access peripheral`,
    "mEq/L",
    "2 mEq/mL",
    { dose: "299.9 mEq", ...litre },
    { dose: "300 mEq", ...litre },
    peripheral,
  ),
  strong(
    "k-max",
    `${kcl}\n  concentration  up to {} for any route`,
    "mEq/L",
    "2 mEq/mL",
    { dose: "400 mEq", ...litre },
    { dose: "400.1 mEq", ...litre },
  ),
  strong(
    "k-bag-max",
    `${kcl}\n  dose  up to {} for any route`,
    "mEq",
    "2 mEq/mL",
    { dose: "40 mEq", ...litre },
    { dose: "40.1 mEq", ...litre },
    "",
    "dose-outside-window",
  ),
  fast("k-rate", "mEq/h", kcl, "2 mEq/mL", "4 h", "3.9 h", "40 mEq"),
  fast("k-rate-urgent", "mEq/h", kcl, "2 mEq/mL", "1 h", "59 min", "40 mEq"),
  strong(
    "mg-max",
    "concentration  up to {} for route intravenous",
    "% w/v",
    "500 mg/mL",
    { dose: "200 g", ...litre },
    { dose: "200.1 g", ...litre },
  ),
  fast("mg-rate", "mg/min", "", "500 mg/mL", "20 min", "19 min", "3 g"),
  fast("ca-rate", "mg/min", "", "100 mg/mL", "10 min", "9 min", "2 g"),
  strong(
    "vanc-conc",
    "usual-concentration  up to {} for any route\n  concentration  up to 10 mg/mL for any route",
    "mg/mL",
    "50 mg/mL",
    { dose: "5 g", ...litre },
    { dose: "5.1 g", ...litre },
    "",
    "concentration-unusual",
  ),
  fast("vanc-rate", "mg/min", "", "50 mg/mL", "100 min", "99 min", "1 g"),
  fast("phenytoin-rate", "mg/min", "", "50 mg/mL", "20 min", "19 min", "1 g"),
  fast("furosemide-rate", "mg/min", "", "10 mg/mL", "60 min", "59 min", "240 mg"),
  strong(
    "amio-periph",
    "concentration  up to {} for route intravenous access peripheral",
    "mg/mL",
    "50 mg/mL",
    { dose: "900 mg", to: "450 mL" },
    { dose: "900 mg", to: "449 mL" },
    peripheral,
  ),
  strong(
    "amio-floor",
    "concentration  from {} for any route",
    "mg/mL",
    "50 mg/mL",
    { dose: "300 mg", to: "500 mL" },
    { dose: "300 mg", to: "501 mL" },
    "",
    "concentration-below-limit",
  ),
  strong(
    "insulin-floor",
    "concentration  above {} for any route",
    "units/mL",
    "100 units/mL",
    { dose: "50 units", to: "999 mL" },
    { dose: "50 units", to: "1000 mL" },
    "",
    "concentration-below-limit",
  ),
];

/** `{}` in a fact, the row's figure in the unit that the language writes. */
function built(of: Case, point: Case["keeps"]): Limited {
  const figure = `${row(of.id).value} ${of.unit}`;
  const put = (text: string | undefined) => (text ?? "").replace("{}", figure);
  const order = [of.order, point.order].filter(Boolean).join("\n    ");
  return { drug: put(of.drug), site: put(of.site), strength: of.strength, dose: point.dose, to: point.to, order };
}

describe("a published limit, stated as a fact", () => {
  for (const each of limits) {
    const { source, value } = row(each.id);
    it(`${each.id}: ${value} ${each.unit} (${source.title.slice(0, 50)}, ${source.publisher})`, () => {
      expect(limitFindings(built(each, each.keeps))).toEqual([]);
      expect(limitFindings(built(each, each.breaks))).toEqual([each.finds]);
    });
  }

  it.each([
    ["ca-bolus", "use  bolus", "10 mg/mL", "50 mg/mL", "200 mL", "40 mL", "201 mL", "39 mL"],
    ["ca-inf", "use  infusion\n    infuse-over  4 h", "5.8 mg/mL", "10 mg/mL", "340 mL", "200 mL", "345 mL", "199 mL"],
    ["amio-central", "access  central", "1 mg/mL", "6 mg/mL", "2000 mL", "334 mL", "2001 mL", "333 mL"],
  ])("%s: an interval has two ends", (id, order, low, high, weakest, strongest, tooWeak, tooStrong) => {
    const published = row(id) as Row & { value_high: string };
    expect([low, high]).toEqual([`${published.value} mg/mL`, `${published.value_high} mg/mL`]);
    const at = (to: string) =>
      limitFindings({
        drug: `concentration  from ${low} up to ${high} for any route`,
        strength: "100 mg/mL",
        dose: "2 g",
        to,
        order,
      });
    expect([weakest, strongest].map(at)).toEqual([[], []]);
    expect(at(tooWeak)).toEqual(["concentration-below-limit"]);
    expect(at(tooStrong)).toEqual(["concentration-above-limit"]);
  });

  it("k-concentrate: the concentrate as it comes is told as such", () => {
    const drug = `${kcl}\n  concentration  up to 400 mEq/L for any route`;
    const undiluted: Limited = { drug, strength: "2 mEq/mL", dose: "40 mEq", to: "20.001 mL" };
    expect(limitFindings(undiluted)).toEqual(["concentration-above-limit"]);
  });

  it("diazepam-floor: forty-fold of 5 mg/mL or more, that is 0.125 mg/mL at the most", () => {
    const at = (to: string) =>
      limitFindings({ drug: "concentration  up to 0.125 mg/mL for any route", strength: "5 mg/mL", dose: "5 mg", to });
    expect([at("40 mL"), at("39 mL")]).toEqual([[], ["concentration-above-limit"]]);
  });
});

describe("a label's figure beside the true one", () => {
  const mixed = (strength: string, volume: string, diluent: string) =>
    run({
      stock: `container  vial\n  strength  ${strength}\n  fill  1 L\n  capacity  1 L`,
      steps: `draw ${volume} from source into syringe\n    inject syringe into flask\n    add ${diluent} from tank to flask using spare`,
    });
  it.each([
    ["nominal-vs-true-vaso", "20 units/mL", "5 mL", "100 mL", "units/mL"],
    ["nominal-vs-true-panto", "4 mg/mL", "10 mL", "100 mL", "mg/mL"],
    ["nominal-vs-true-phenyl", "10 mg/mL", "1 mL", "500 mL", "mcg/mL"],
  ])("%s", (id, strength, volume, diluent, unit) => {
    const published = row(id);
    const true_ = inUnit(concentrationIn(mixed(strength, volume, diluent), "flask"), unit).value;
    expect(true_.roundedTo(published.value!.split(".")[1]!.length).toText()).toBe(published.value);
  });
  it("diltiazem-overfill: 125 mg at 5 mg/mL are 25 mL, in 100 mL it is 125 mL", () => {
    const result = mixed("5 mg/mL", "25 mL", "100 mL");
    expect(inUnit(volumeIn(result, "flask"), "mL").value.toText()).toBe("125");
  });
});

/** Why a row that was read is no limit for a case above. */
const notLimits: Readonly<Record<string, string>> = {
  "osm-label-600":
    "excludes its own figure, and the site's fact includes it: stated as a figure below 600 it is osm-periph-ins",
  "osm-neonatal-example": "a published mixture above the usual limit: why the finding is a warning and no error",
  "ph-phenytoin": "a pH: see `ph-far-apart`, below",
  "ph-furosemide": "a pH: see `ph-far-apart`, below",
  "ph-aminophylline": "a pH: see `ph-far-apart`, below",
  "ph-vancomycin": "a pH: see `ph-far-apart`, below",
  "ph-oxytocin": "a pH: see `ph-far-apart`, below",
  "ph-nitroglycerin": "a pH: see `ph-far-apart`, below",
  "ph-dexmedetomidine": "a pH: see `ph-far-apart`, below",
  "ph-calcium": "a pH: see `ph-far-apart`, below",
  "cap-volume": "tests/worked/calcium-phosphate.test.ts",
  "cap-time": "the examples of calcium-phosphate-kept-too-long, 21 h and 20 h with 4 h of giving",
  "cap-measured": "a studied pair: a `together` row, as in tests/worked/calcium-phosphate.test.ts",
  "content-90-110": "a tolerance: `tolerance dose 10 %` of the site, tests/checks",
  "content-95-105": "a tolerance: `tolerance dose 5 %`, the site's default",
  "stability-90": "how studies count stable; no recipe states it",
  "mix-10": "an observed spread; no recipe states it",
  "add-10pc": "the default of `additive-share`, examples of additive-over-share",
  "overfill-typical": "an observation; a stock states its own `overfill`",
  "overfill-1000": "an observation; a stock states its own `overfill`",
  "overfill-250": "an observation; a stock states its own `overfill`",
  "eq-dex": "a salt: tests/quantities/conversions.test.ts",
  "eq-ket": "a salt: tests/quantities/conversions.test.ts",
  "eq-ami": "a salt: tests/quantities/conversions.test.ts",
  "eq-mg": "tests/reference/solution.test.ts",
  "eq-ca": "an ion of a salt: tests/quantities/conversions.test.ts",
  "eq-phe": "a salt: tests/quantities/conversions.test.ts",
};

const computed = [
  "ca-bolus",
  "ca-inf",
  "amio-central",
  "k-concentrate",
  "diazepam-floor",
  "nominal-vs-true-vaso",
  "nominal-vs-true-panto",
  "nominal-vs-true-phenyl",
  "diltiazem-overfill",
];

it("leaves no row that was read without a case or a reason", () => {
  const done = new Set([...limits.map((l) => l.id), ...computed, ...Object.keys(notLimits)]);
  expect(rows.filter((r) => r.verified === "read" && !done.has(r.id)).map((r) => r.id)).toEqual([]);
  expect([...done].filter((id) => !rows.some((r) => r.id === id))).toEqual([]);
});
