/**
 * Edits of the sample library with their clinical effect, worked out by hand from the recipes and the products' labels: on which level
 * each must be told, of which declarations, and with which figures. Molar mass of magnesium sulfate heptahydrate 246.47 g/mol:
 * standard atomic weights.
 */
import type { ChangeLevel } from "../../shared/comparison.ts";

export interface Edit {
  file: string;
  was: string | RegExp;
  is: string;
}

export interface ClinicalEdit {
  name: string;
  /** Made on both sides beforehand. */
  before?: Edit[];
  edits: Edit[];
  level: ChangeLevel;
  /** Level of every declaration that is told: all of them, or as many. Empty: nothing may be told. */
  of: Record<string, ChangeLevel> | number;
  /** Words that the text report has. */
  says: string[];
  /** Checks whose finding came or went: `appeared claim-differs`. Only these, in the declarations named here. */
  verdicts?: Record<string, string[]>;
}

const edit = (file: string, was: string | RegExp, is: string): Edit => ({ file, was, is });
const magnesium = "recipes/magnesium-4g.misce";
const vancomycin = "recipes/vancomycin-loading.misce";
const furosemide = "recipes/furosemide-50mg.misce";
const batch = "recipes/ceftriaxone-1g-batch.misce";
const monograph = "drugs/magnesium-sulfate.misce";
const vials = "stock/vials.misce";
const only = (level: ChangeLevel, name = "magnesium-4g"): Record<string, ChangeLevel> => ({
  [`recipe ${name}`]: level,
});
const magnesiumRecipes = ["magnesium-20g", "magnesium-2g", "magnesium-2g-batch", "magnesium-4g", "magnesium-8mmol"];
/** Every recipe that rests on the monograph of magnesium sulfate, and the monograph itself. */
const allMagnesium = (levels: Partial<Record<string, ChangeLevel>>): Record<string, ChangeLevel> => ({
  ...Object.fromEntries([...magnesiumRecipes, "potassium-magnesium"].map((n) => [`recipe ${n}`, levels[n] ?? "fact"])),
  "drug magnesium-sulfate": "fact",
});
const shelfLimit = "longest limit of use at room-temperature that policy, stability and opened products allow";

export const orderEdits: ClinicalEdit[] = [
  {
    name: "the dose in mg in place of g",
    edits: [edit(magnesium, "dose            4 g", "dose            4 mg")],
    level: "verdict",
    of: only("verdict"),
    says: [
      "order: dose 4 g per bag → dose 4 mg per bag  (-3.996 g, -99.9 %, 1,000 TIMES LESS)",
      "dose of magnesium-sulfate: 4 g → 4 mg  (-3.996 g, -99.9 %, 1,000 TIMES LESS)",
    ],
    verdicts: {
      "recipe magnesium-4g": [
        "appeared dose-not-delivered",
        "appeared dose-outside-window",
        "appeared title-contradicts-order",
      ],
    },
  },
  {
    name: "mEq in place of mmol: half of it, for an ion of two charges",
    edits: [edit("recipes/magnesium-8mmol.misce", /dose( +)8 mmol/, "dose$18 mEq")],
    level: "verdict",
    of: only("verdict", "magnesium-8mmol"),
    // 8 mmol × 246.47 = 1.972 g; 8 mEq = 4 mmol = 0.986 g. What is in the bag did not change, and is not told.
    says: [
      "dose of magnesium-sulfate: 8 mmol (1.97",
      "→ 8 mEq (985.",
      "-50 %, 0.5 times, ANOTHER KIND OF UNIT: mmol became mEq",
    ],
  },
  {
    name: "the diluent and its bag exchanged",
    edits: [
      edit(magnesium, /diluent +sodium-chloride-0\.9/, "diluent glucose-5"),
      edit(magnesium, "saline-bag-100", "glucose-bag-100"),
    ],
    level: "verdict",
    of: only("verdict"),
    // 0.1 L × 308 + 4 g ÷ 246.47 × 2 = 63.3 mOsm in 108 mL = 586 mOsm/L; with 278: 60.3 ÷ 0.108 = 558.
    says: [
      "sodium-chloride-0.9 in bag: 100 mL → none",
      "glucose-5 in bag: none → 100 mL",
      "osmolarity of bag, at least: 586 mOsm/L → 558 mOsm/L",
    ],
    // The title still says sodium chloride.
    verdicts: { "recipe magnesium-4g": ["appeared title-contradicts-order"] },
  },
  {
    name: "a larger bag of diluent",
    edits: [
      edit(magnesium, /diluent-volume +100 mL/, "diluent-volume 250 mL"),
      edit(magnesium, "saline-bag-100", "saline-bag-250"),
    ],
    level: "verdict",
    of: only("verdict"),
    // 250 + 8 = 258 mL; 4,000 ÷ 258 = 15.5 mg/mL; 258 ÷ 4 = 64.5 mL/h.
    says: [
      "(fill: +150 mL, +150 %, 2.5 times;",
      "final volume of bag: 108 mL → 258 mL  (+150 mL, +139 %",
      "concentration of magnesium-sulfate in bag: 37.04 mg/mL → 15.5 mg/mL",
      "pump rate: 27 mL/h → 64.5 mL/h",
    ],
  },
  {
    name: "another method of making up",
    edits: [edit(magnesium, "add-to-bag", "withdraw-first")],
    level: "verdict",
    of: only("verdict"),
    says: ["order: method add-to-bag → method withdraw-first"],
    verdicts: { "recipe magnesium-4g": ["appeared method-not-followed"] },
  },
  {
    name: "4 min in place of 4 h",
    edits: [edit(magnesium, /infuse-over +4 h/, "infuse-over     4 min")],
    level: "verdict",
    of: only("verdict"),
    // 4 g in 4 min = 60 g/h; 108 mL in 4 min = 1,620 mL/h.
    says: [
      "magnesium-sulfate per hour: 1 g/h → 60 g/h  (+59 g/h, +5900 %, 60 times)",
      "pump rate: 27 mL/h → 1,620 mL/h",
      "THE SAME FIGURE IN ANOTHER UNIT: h became min",
    ],
    verdicts: { "recipe magnesium-4g": ["appeared rate-above-limit"] },
  },
  {
    name: "a central line in place of a peripheral vein",
    edits: [edit(magnesium, "peripheral", "central")],
    level: "fact",
    of: only("fact"),
    says: ["order: access peripheral → access central"],
  },
  {
    name: "another route",
    edits: [edit(magnesium, /route +intravenous/, "route intrathecal")],
    level: "verdict",
    of: only("verdict"),
    says: ["order: route intravenous → route intrathecal"],
    verdicts: { "recipe magnesium-4g": ["appeared guarded-route-not-in-monograph"] },
  },
  {
    name: "one bag more than is laid out",
    edits: [edit(batch, "makes           4 x bags", "makes           5 x bags")],
    level: "verdict",
    of: only("verdict", "ceftriaxone-1g-batch"),
    says: ["order: makes 4 x bags → makes 5 x bags  (+1, +25 %)"],
    // The title says a batch of 4.
    verdicts: { "recipe ceftriaxone-1g-batch": ["appeared batch-count-differs", "appeared title-contradicts-order"] },
  },
];

export const rangeEdits: ClinicalEdit[] = [
  {
    name: "the cap raised",
    edits: [edit(vancomycin, "maximum         dose 2 g", "maximum         dose 3 g")],
    level: "verdict",
    of: only("verdict", "vancomycin-loading"),
    // 25 × 120 = 3,000 mg. 600 mg/h is the most: 2,250 mg in 4 h fits, 2,500 mg does not, so below 95 kg (2,375 ÷ 25) it is safe.
    says: [
      "order: maximum dose 2 g → maximum dose 3 g  (+1 g, +50 %)",
      "at weight 120 kg (highest, changed most): 2,000 mg → 3,000 mg  (+1,000 mg, +50 %)",
      "safe range narrower: 40 kg to 120 kg → 40 kg to 94.9 kg",
    ],
  },
  {
    name: "the cap taken out",
    edits: [edit(vancomycin, / +maximum +dose 2 g\n/, "")],
    level: "verdict",
    of: only("verdict", "vancomycin-loading"),
    says: ["order: taken out: maximum dose 2 g", "at weight 120 kg (highest, changed most): 2,000 mg → 3,000 mg"],
  },
  {
    name: "a coarser rounding",
    edits: [edit(vancomycin, "nearest 250 mg", "nearest 500 mg")],
    // At 50 kg it moves the dose by 20 %, which the site does not allow.
    level: "verdict",
    of: only("verdict", "vancomycin-loading"),
    // 45 × 25 = 1,125 mg: to 250 mg half up 1,250; to 500 mg 1,000. At 40 and 120 kg both give the same.
    says: ["at weight 45 kg (changed most): 1,250 mg → 1,000 mg  (-250 mg, -20 %)"],
  },
  {
    name: "a tenth of the dose per kg",
    edits: [edit(vancomycin, "25 mg/kg", "2.5 mg/kg")],
    level: "verdict",
    of: only("verdict", "vancomycin-loading"),
    // 2.5 × 120 = 300, rounded 250 mg. 2.5 × 40 = 100, rounded to nothing.
    says: [
      "dose 25 mg/kg per bag → dose 2.5 mg/kg per bag  (-22.5 mg/kg, -90 %, 10 TIMES LESS)",
      "at weight 120 kg (highest): 2,000 mg → 250 mg  (-1,750 mg, -87.5 %",
      "at weight 40 kg (lowest, changed most): 1,000 mg → 0 mg  (-1,000 mg, -100 %",
    ],
  },
  {
    name: "the edge between two bags moved",
    edits: [edit(vancomycin, /1\.25 g/g, "1.5 g")],
    level: "verdict",
    of: only("verdict", "vancomycin-loading"),
    // From 55 kg (1,375 mg, rounded 1,500) to 64.9 kg: 1,500 mg in 250 mL now, 6 mg/mL; 5 mg/mL is the most.
    says: [
      "at weight 55 kg (changed most): 3 mg/mL → 6 mg/mL  (+3 mg/mL, +100 %, 2 times)",
      "at weight 55 kg (changed most): 500 mL → 250 mL",
      "safe range narrower: 40 kg to 120 kg → 40 kg to 54.9 kg and 65 kg to 120 kg",
    ],
  },
  {
    name: "a narrower range of weights",
    edits: [edit(vancomycin, "40 kg to 120 kg", "50 kg to 100 kg")],
    level: "verdict",
    of: only("verdict", "vancomycin-loading"),
    says: [
      "(range from: +10 kg, +25 %; range to: -20 kg, -16.7 %)",
      "at weight 40 kg (lowest): 1,000 mg → not ordered",
      "safe range narrower: 40 kg to 120 kg → 50 kg to 100 kg",
    ],
  },
  {
    name: "a wider range of weights",
    edits: [edit(vancomycin, "40 kg to 120 kg", "30 kg to 150 kg")],
    level: "verdict",
    of: only("verdict", "vancomycin-loading"),
    says: ["at weight 30 kg (lowest): not ordered → 750 mg", "safe range wider: 40 kg to 120 kg → 30 kg to 150 kg"],
  },
  {
    name: "a range that shares no weight with the former",
    edits: [edit(vancomycin, "40 kg to 120 kg", "130 kg to 150 kg")],
    level: "verdict",
    of: only("verdict", "vancomycin-loading"),
    says: [
      "safe range differs",
      "no value of their range in common",
      "at weight 130 kg (lowest): not ordered → 2,000 mg",
    ],
  },
  {
    name: "a limit of concentration that only some weights keep",
    edits: [edit("drugs/vancomycin.misce", "up to 5 mg/mL", "up to 4 mg/mL")],
    level: "verdict",
    of: {
      "recipe vancomycin-500mg": "verdict",
      "recipe vancomycin-loading": "verdict",
      "recipe vancomycin-1g": "fact",
      "recipe vancomycin-1.5g": "fact",
      "drug vancomycin": "fact",
    },
    // 1,250 mg in 250 mL = 5 mg/mL: from 1,125 ÷ 25 = 45 kg to below 1,375 ÷ 25 = 55 kg.
    says: [
      "safe range narrower: 40 kg to 120 kg → 40 kg to 44.9 kg and 55 kg to 120 kg",
      "through drug vancomycin (drug)",
      "(-1 mg/mL, -20 %)",
    ],
    verdicts: { "recipe vancomycin-500mg": ["appeared concentration-above-limit"] },
  },
];

export const stepEdits: ClinicalEdit[] = [
  {
    name: "a tenth drawn",
    edits: [edit(magnesium, "draw 4 g", "draw 0.4 g")],
    level: "verdict",
    of: only("verdict"),
    // 0.8 mL; 400 mg in 100.8 mL = 3.968 mg/mL.
    says: [
      "(-3.6 g, -90 %, 10 TIMES LESS)",
      "8 mL → 0.8 mL  (-7.2 mL, -90 %, 10 TIMES LESS)",
      "magnesium-sulfate in bag: 4 g → 400 mg",
      "37.04 mg/mL → 3.968 mg/mL",
    ],
  },
  {
    name: "a stated volume with its point moved",
    edits: [edit(magnesium, "= 8 mL", "= 0.8 mL")],
    level: "verdict",
    of: only("verdict"),
    says: ["= 8 mL → 4. draw 4 g from mag into syringe at equal pressure = 0.8 mL  (-7.2 mL, -90 %, 10 TIMES LESS)"],
    verdicts: { "recipe magnesium-4g": ["appeared claim-differs"] },
  },
  {
    name: "the change of filter left out",
    edits: [edit(furosemide, /^.*replace filter.*\n/m, "")],
    level: "verdict",
    of: only("verdict", "furosemide-50mg"),
    says: ["steps: taken out: 8. replace filter on syringe with needle"],
    verdicts: { "recipe furosemide-50mg": ["appeared filter-used-both-ways"] },
  },
  {
    name: "a plain needle in place of the filter",
    edits: [edit(furosemide, "filter-needle-5um", "needle-18-gauge")],
    level: "verdict",
    of: only("verdict", "furosemide-50mg"),
    says: ["materials: filter filter-needle-5um → filter needle-18-gauge"],
    verdicts: { "recipe furosemide-50mg": ["appeared glass-not-filtered"] },
  },
  {
    name: "a finer needle",
    edits: [edit(magnesium, "needle-18-gauge", "needle-21-gauge")],
    level: "fact",
    of: only("fact"),
    says: ["materials: needle needle-18-gauge → needle needle-21-gauge  (gauge: 18 → 21)"],
  },
  {
    name: "a syringe that measures worse",
    edits: [edit(magnesium, "syringe-10mL", "syringe-50mL")],
    level: "verdict",
    of: only("verdict"),
    says: ["(capacity: +40 mL, +400 %, 5 times; graduation: +0.8 mL, +400 %, 5 times)"],
    verdicts: { "recipe magnesium-4g": ["appeared too-small-to-measure"] },
  },
  {
    name: "the check by the pharmacist left out",
    edits: [edit(magnesium, "    check by pharmacist\n    disinfect bag", "    disinfect bag")],
    level: "verdict",
    of: only("verdict"),
    says: ["steps: taken out: 6. check by pharmacist", "high-alert"],
  },
  {
    name: "no equal pressure",
    edits: [edit(magnesium, " at equal pressure", "")],
    level: "verdict",
    of: only("verdict"),
    says: ["at equal pressure = 8 mL → 4. draw 4 g from mag into syringe = 8 mL"],
    verdicts: { "recipe magnesium-4g": ["appeared no-equal-air"] },
  },
  {
    name: "mixed once in place of ten times",
    edits: [edit(magnesium, "inverting 10 times", "inverting 1 times")],
    level: "verdict",
    of: only("verdict"),
    says: ["10 times → 9. mix bag by inverting 1 times  (-9, -90 %, 10 TIMES LESS)"],
    verdicts: { "recipe magnesium-4g": ["appeared mixing-times-unlikely"] },
  },
  {
    name: "two steps that do not touch each other exchanged",
    edits: [edit(magnesium, /^( +disinfect mag\n)( +attach needle to syringe\n)/m, "$2$1")],
    level: "fact",
    of: only("fact"),
    says: ["steps: moved:"],
  },
  {
    name: "calcium before phosphate",
    edits: [
      edit(
        "recipes/phosphate-calcium.misce",
        /( {4}disinfect phos\n[\s\S]*?inverting 10 times\n)( {4}disinfect calc\n[\s\S]*?inverting 10 times\n)/,
        "$2$1",
      ),
    ],
    level: "verdict",
    of: only("verdict", "phosphate-calcium"),
    says: ["steps: moved: 10. inject syringe-1 into bag → 17. inject syringe-1 into bag"],
    verdicts: { "recipe phosphate-calcium": ["appeared added-in-wrong-order"] },
  },
  {
    name: "one vial more",
    edits: [edit(batch, "4 x ceftriaxone-vial-1000", "5 x ceftriaxone-vial-1000")],
    level: "verdict",
    of: only("verdict", "ceftriaxone-1g-batch"),
    says: ["(count: +1, +25 %)", "number of vials: 4 → 5  (+1, +25 %)"],
    // Four bags of one vial each leave the fifth over.
    verdicts: { "recipe ceftriaxone-1g-batch": ["appeared containers-left-over"] },
  },
  {
    name: "a larger vial of the same strength",
    edits: [edit(magnesium, "magnesium-vial-10", "magnesium-vial-50")],
    level: "fact",
    of: only("fact"),
    says: ["mag magnesium-vial-10 → mag magnesium-vial-50  (fill: +40 mL, +400 %, 5 times)"],
  },
];

export const preparationEdits: ClinicalEdit[] = [
  {
    name: "24 days in place of 24 h",
    edits: [edit(magnesium, /use-within +24 h/, "use-within      24 days")],
    level: "verdict",
    of: only("verdict"),
    says: ["stated limit of use at room-temperature: 24 h → 24 days  (+552 h, +2300 %", "h became days"],
    verdicts: {
      "recipe magnesium-4g": ["appeared use-within-longer-than-policy", "appeared use-within-longer-than-stability"],
    },
  },
  {
    name: "kept elsewhere",
    edits: [edit(magnesium, "24 h at room-temperature", "24 h at refrigerator")],
    level: "verdict",
    of: only("verdict"),
    says: ["stated limit of use at refrigerator: none → 24 h", "stated limit of use at room-temperature: 24 h → none"],
    verdicts: { "recipe magnesium-4g": ["appeared stability-not-covered"] },
  },
  {
    name: "a stated concentration with its point moved",
    edits: [edit(magnesium, "37.04", "3.704")],
    level: "verdict",
    of: only("verdict"),
    says: ["concentration 37.04 mg/mL → concentration 3.704 mg/mL  (-33.336 mg/mL, -90 %, 10 TIMES LESS)"],
    verdicts: { "recipe magnesium-4g": ["appeared concentration-differs"] },
  },
  {
    name: "a line on the label",
    edits: [
      edit(magnesium, "  preparation bag {", '  label-text {\n    line  "For one patient"\n  }\n\n  preparation bag {'),
    ],
    level: "fact",
    of: only("fact"),
    says: ['label-text: added: line "For one patient"'],
  },
  {
    name: "a worked example with its point moved",
    edits: [edit(vancomycin, "expect  dose 1.5 g", "expect  dose 15 g")],
    level: "verdict",
    of: only("verdict", "vancomycin-loading"),
    says: ["expect dose 1.5 g → expect dose 15 g  (+13.5 g, +900 %, 10 TIMES MORE)"],
    verdicts: { "recipe vancomycin-loading": ["appeared example-differs"] },
  },
  {
    name: "the title alone",
    edits: [edit(magnesium, "4 g in sodium", "4 g, in sodium")],
    level: "fact",
    of: only("fact"),
    says: ["title "],
  },
  {
    name: "a deviation that silences a finding",
    before: [edit(magnesium, "24 h at room-temperature", "24 h at refrigerator")],
    edits: [
      edit(
        magnesium,
        "  preparation bag {",
        '  deviation stability-not-covered on bag\n    because "study KQ-7 under way"\n    by pharmacist\n    until 2027-03-31\n\n  preparation bag {',
      ),
    ],
    level: "verdict",
    of: only("verdict"),
    says: ["added: deviation stability-not-covered on bag", "warning stability-not-covered is silenced now"],
  },
  {
    name: "a deviation whose last day has gone by",
    before: [
      edit(magnesium, "24 h at room-temperature", "24 h at refrigerator"),
      edit(
        magnesium,
        "  preparation bag {",
        '  deviation stability-not-covered on bag\n    because "study KQ-7 under way"\n    by pharmacist\n    until 2027-03-31\n\n  preparation bag {',
      ),
    ],
    edits: [edit(magnesium, "until 2027-03-31", "until 2026-03-31")],
    level: "verdict",
    of: only("verdict"),
    says: [
      "until 2027-03-31 → deviation",
      "warning stability-not-covered is no longer silenced",
      "deviation-lapsed appeared",
    ],
  },
];

export const sharedEdits: ClinicalEdit[] = [
  {
    name: "a tenth of the strength of a stock",
    edits: [edit(vials, /(stock magnesium-vial-10 \{[^}]*strength +)500 mg/, "$150 mg")],
    level: "verdict",
    of: {
      "recipe magnesium-2g": "verdict",
      "recipe magnesium-4g": "verdict",
      "recipe magnesium-8mmol": "verdict",
      "recipe potassium-magnesium": "verdict",
      "stock magnesium-vial-10": "fact",
    },
    // 4,000 ÷ 50 = 80 mL, 8 vials of 10 mL; 4,000 ÷ 180 = 22.22 mg/mL.
    says: [
      "strength 500 mg/mL → strength 50 mg/mL  (-450 mg/mL, -90 %, 10 TIMES LESS)",
      "through stock magnesium-vial-10 (material mag)",
      "8 mL → 80 mL  (+72 mL, +900 %, 10 TIMES MORE)",
      "number of mag: 1 → 8  (+7, +700 %, 8 times)",
      "37.04 mg/mL → 22.22 mg/mL",
    ],
  },
  {
    name: "a smaller fill of a vial",
    edits: [edit(vials, /(stock magnesium-vial-10 \{[^}]*fill +)10 mL/, "$12 mL")],
    level: "consequence",
    of: {
      "recipe magnesium-2g": "consequence",
      "recipe magnesium-4g": "consequence",
      "recipe magnesium-8mmol": "consequence",
      "recipe potassium-magnesium": "consequence",
      "stock magnesium-vial-10": "fact",
    },
    // 8 mL from vials of 2 mL.
    says: ["number of mag: 1 → 4  (+3, +300 %, 4 times)"],
  },
  {
    name: "an overfill stated for a bag",
    edits: [edit("stock/fluids.misce", /(stock saline-bag-100 \{[^}]*fill +100 mL)/, "$1\n  overfill 5 mL to 12 mL")],
    level: "verdict",
    of: 17,
    // 100 + 12 + 8 = 120 mL; 4,000 ÷ 120 = 33.33 mg/mL.
    says: [
      "final volume of bag, with the most overfill: 108 mL → 120 mL",
      "concentration of magnesium-sulfate in bag, with the most overfill: 37.04 mg/mL → 33.33 mg/mL  (-3.704 mg/mL, -10 %)",
    ],
  },
  {
    name: "a bag that holds less",
    edits: [edit("stock/fluids.misce", /(stock saline-bag-100 \{[^}]*capacity +)150 mL/, "$1105 mL")],
    level: "verdict",
    of: 17,
    says: ["capacity 150 mL → capacity 105 mL  (-45 mL, -30 %)", "error container-overfilled appeared"],
    verdicts: { "recipe magnesium-4g": ["appeared container-overfilled"] },
  },
  {
    name: "twice the displacement of a powder",
    edits: [edit("stock/powder-vials.misce", "displacement  0.4 mL/g", "displacement  0.8 mL/g")],
    level: "verdict",
    of: {
      "recipe ceftriaxone-300mg-syringe": "verdict",
      "recipe ceftriaxone-500mg": "verdict",
      "stock ceftriaxone-vial-500": "fact",
    },
    // 4.8 + 0.5 × 0.8 = 5.2 mL.
    says: ["5 mL → 5.2 mL  (+0.2 mL, +4 %)"],
  },
  {
    name: "twice the fluid for a powder",
    edits: [edit("stock/powder-vials.misce", /(vancomycin-vial-500 \{[^}]*\{[^}]*with +)10 mL/, "$120 mL")],
    level: "verdict",
    of: 4,
    says: [
      "reconstitute: with 10 mL of water-for-injection → with 20 mL of water-for-injection  (+10 mL, +100 %, 2 times)",
    ],
  },
  {
    name: "the strength counted as the salt in place of the base",
    edits: [edit(vials, "100 mcg/mL as dexmedetomidine", "100 mcg/mL as dexmedetomidine-hydrochloride")],
    level: "verdict",
    of: { "recipe dexmedetomidine-200mcg": "verdict", "stock dexmedetomidine-vial": "fact" },
    says: ["draw 200 mcg from dex into syringe: 2 mL → 2.4 mL", "number of dex: 1 → 2  (+1, +100 %, 2 times)"],
  },
  {
    name: "the charge of an ion",
    edits: [edit("drugs/potassium-chloride.misce", "potassium charge 1", "potassium charge 2")],
    level: "verdict",
    of: 5,
    says: [
      "ion potassium charge 1 → ion potassium charge 2  (+1, +100 %, 2 times)",
      "through drug potassium-chloride (drug)",
    ],
  },
  {
    name: "the formula without its water",
    edits: [edit(monograph, "MgSO4.7H2O", "MgSO4")],
    level: "verdict",
    of: allMagnesium({
      "magnesium-20g": "verdict",
      "magnesium-4g": "verdict",
      "magnesium-8mmol": "verdict",
      "magnesium-2g": "consequence",
      "magnesium-2g-batch": "consequence",
      "potassium-magnesium": "consequence",
    }),
    // 120.36 g/mol: 8 mmol = 0.963 g, 51.2 % less.
    says: ["dose of magnesium-sulfate: 8 mmol (1.97", "→ 8 mmol (962.", "-51.2 %"],
  },
  {
    name: "a shorter stability",
    edits: [edit(monograph, /(in +sodium-chloride-0\.9[^}]*for +)24 h/, "$112 h")],
    level: "verdict",
    of: allMagnesium(Object.fromEntries(magnesiumRecipes.map((n) => [n, n === "magnesium-2g" ? "fact" : "verdict"]))),
    says: [
      "stable in sodium-chloride-0.9 at room-temperature: for 24 h → for 12 h  (-12 h, -50 %, 0.5 times)",
      `${shelfLimit}: 24 h → 12 h`,
    ],
    verdicts: { "recipe magnesium-4g": ["appeared use-within-longer-than-stability"], "recipe magnesium-2g": [] },
  },
  {
    name: "a row of stability taken out",
    edits: [edit(monograph, / {2}stable \{[^}]*in +sodium-chloride-0\.9[^}]*\}\n/, "")],
    level: "verdict",
    of: 7,
    // Then only the policy limits, 4 days; how long it keeps is not known, which is no longer time.
    says: [
      `${shelfLimit}: 24 h → not known: no row of stability covers it (4 days by the other limits)`,
      "stability-not-covered appeared",
    ],
  },
  {
    name: "a limit per hour in place of per minute",
    edits: [edit(monograph, "up to 150 mg/min", "up to 150 mg/h")],
    level: "verdict",
    of: 7,
    says: ["-98.3 %, 0.0167 times, THE SAME FIGURE IN ANOTHER UNIT: mg/min became mg/h", "allowed is up to 150 mg/h"],
    verdicts: { "recipe magnesium-4g": ["appeared rate-above-limit"] },
  },
  {
    name: "a compatibility taken out",
    edits: [edit(monograph, / +compatible +sodium-chloride-0\.9.*\n/, "")],
    level: "verdict",
    of: allMagnesium(Object.fromEntries(magnesiumRecipes.map((n) => [n, n === "magnesium-2g" ? "fact" : "verdict"]))),
    says: ["taken out: compatible sodium-chloride-0.9"],
    verdicts: { "recipe magnesium-4g": ["appeared compatibility-not-declared"] },
  },
  {
    name: "a compatibility turned round",
    edits: [edit(monograph, /compatible( +)sodium-chloride-0\.9/, "incompatible$1sodium-chloride-0.9")],
    level: "verdict",
    of: 7,
    says: ["added: incompatible sodium-chloride-0.9"],
    verdicts: { "recipe magnesium-4g": ["appeared diluent-incompatible"] },
  },
  {
    name: "a hazard stated",
    edits: [edit(monograph, "not-hazardous", "hazardous")],
    level: "verdict",
    of: 7,
    says: ["hazard not-hazardous → hazard hazardous", "hazardous-in-horizontal-flow appeared"],
  },
  {
    name: "the density of a drug",
    edits: [edit(monograph, /( +)dense( +)yes/, "$1dense$2yes\n$1density 1.2 g/mL")],
    level: "fact",
    of: 7,
    says: ["added: density 1.2 g/mL"],
  },
  {
    name: "a fluid's osmolarity with its point moved",
    edits: [edit("fluids.misce", "osmolarity  308 mOsm/L", "osmolarity  30.8 mOsm/L")],
    level: "verdict",
    of: 38,
    // (0.1 × 30.8 + 32.46) ÷ 0.108 = 329 mOsm/L.
    says: ["10 TIMES LESS", "osmolarity of bag, at least: 586 mOsm/L → 329 mOsm/L"],
  },
  {
    name: "protection from light no longer asked for",
    edits: [edit("drugs/nitroprusside.misce", /light +protect-always/, "light not-sensitive")],
    level: "fact",
    of: { "drug nitroprusside": "fact", "recipe nitroprusside-50mg": "fact" },
    says: ["light protect-always → light not-sensitive", "through drug nitroprusside: nitroprusside-50mg"],
  },
  {
    name: "a source of a fact",
    edits: [
      edit(monograph, 'not-sensitive  source kestrel-guide "magnesium"', 'not-sensitive  source kestrel-guide "p. 3"'),
    ],
    level: "fact",
    of: allMagnesium({}),
    says: ['source kestrel-guide "p. 3"'],
  },
  {
    name: "the edition of a reference",
    edits: [edit("references.misce", 'edition    "undated"', 'edition    "2026"')],
    level: "fact",
    of: 3,
    says: ['edition "undated" → edition "2026"'],
  },
  {
    name: "the site's tolerance for a dose",
    edits: [edit("site.misce", "dose 5 %", "dose 1 %")],
    level: "verdict",
    of: 53,
    // 2 g for 8 mmol (1.972 g) is 1.4 % too much.
    says: [
      "tolerance dose 5 % → tolerance dose 1 %  (-4 percentage points, -80 %",
      "through site (the site's decisions)",
    ],
    verdicts: { "recipe magnesium-8mmol": ["appeared dose-not-delivered"], "recipe magnesium-4g": [] },
  },
  {
    name: "the site's category for limits of use",
    edits: [edit("site.misce", "category 2", "category 1")],
    level: "verdict",
    of: 53,
    // USP 797 (2023), category 1: 12 h at room temperature.
    says: [`${shelfLimit}: 24 h → 12 h  (-12 h, -50 %, 0.5 times)`],
    verdicts: { "recipe magnesium-4g": ["appeared use-within-longer-than-policy"] },
  },
  {
    name: "a finding made less grave by the site",
    before: [edit(magnesium, "24 h at room-temperature", "24 h at refrigerator")],
    edits: [
      edit(
        "site.misce",
        "  note ",
        '  severity        stability-not-covered note\n    because "asked at each order"\n  note ',
      ),
    ],
    level: "verdict",
    of: 53,
    says: ["added: severity stability-not-covered note", "stability-not-covered less grave: warning:"],
    verdicts: { "recipe magnesium-4g": ["less grave stability-not-covered"] },
  },
  {
    name: "the last lot of a stock out of date",
    edits: [edit("lots.misce", /(lots furosemide-ampoule \{)[^}]*\}/, '$1\n  lot "KQ-1" expires 2026-01-01\n}')],
    level: "verdict",
    of: {
      "recipe furosemide-50mg": "verdict",
      "recipe furosemide-200mg": "verdict",
      "lots furosemide-ampoule": "verdict",
    },
    says: ["through lots furosemide-ampoule (material furo → lots on the shelf)"],
    verdicts: { "recipe furosemide-50mg": ["appeared every-lot-expired"] },
  },
  {
    name: "a lot's day put off by two years",
    edits: [edit("lots.misce", /(lot {2}"KQ-4507" {2}expires )2027/, "$12029")],
    level: "fact",
    of: { "lots insulin-vial": "fact" },
    says: ['lot "KQ-4507" expires 2027-10-26 → lot "KQ-4507" expires 2029-10-26'],
  },
  {
    name: "the last lot taken off the list",
    edits: [edit("lots.misce", /lots insulin-vial \{[^}]*\}\n/, "")],
    level: "verdict",
    of: { "recipe insulin-100-units": "verdict", "lots insulin-vial": "fact" },
    says: ["lots insulin-vial was taken out", 'taken out: lot "KQ-4507" expires 2027-10-26'],
    verdicts: { "recipe insulin-100-units": ["appeared no-lot-on-shelf"] },
  },
  {
    name: "a monograph taken out, which a stock names",
    edits: [edit("drugs/digoxin.misce", /[\s\S]+/, "# moved\n")],
    level: "verdict",
    of: {
      "recipe digoxin-40mcg": "verdict",
      "stock digoxin-ampoule": "verdict",
      "drug digoxin": "fact",
      "text outside every declaration ": "verdict",
    },
    says: ["The steps cannot be followed to their end after the change", "warning file-declares-nothing appeared"],
    verdicts: { "stock digoxin-ampoule": ["appeared unknown-name"] },
  },
  {
    // Potassium has one charge: 20 mmol are 20 mEq.
    name: "mEq in place of mmol, as much of it",
    edits: [edit("recipes/potassium-20mmol.misce", /dose( +)20 mmol/, "dose$120 mEq")],
    level: "fact",
    of: only("fact", "potassium-20mmol"),
    says: ["changed between A and B: 1 stated fact.", "dose 20 mmol per bag → dose 20 mEq per bag  (the same amount)"],
  },
  {
    name: "a stated concentration in mEq in place of mmol",
    edits: [edit("recipes/potassium-20mmol.misce", "19.8 mmol/L", "19.8 mEq/L")],
    level: "fact",
    of: only("fact", "potassium-20mmol"),
    says: ["concentration 19.8 mmol/L → concentration 19.8 mEq/L  (the same amount)"],
  },
  {
    // 2 mmol of 74.55 g/mol are 149.1 mg; 1,491 mg are ten times that.
    name: "a strength in mg in place of mEq, ten times of it",
    edits: [edit(vials, /(stock potassium-vial-10 \{[^}]*strength +)2 mEq/, "$11,491 mg")],
    level: "verdict",
    of: {
      "recipe potassium-20mmol": "verdict",
      "recipe potassium-calcium": "verdict",
      "recipe potassium-magnesium": "verdict",
      "stock potassium-vial-10": "fact",
    },
    says: ["+900 %, ABOUT 10 TIMES MORE)"],
  },
  {
    // By the policy 4 days; the figure 4 is a chance, and nobody wrote it.
    name: "the nearest row of stability no longer holds",
    edits: [edit("recipes/digoxin-40mcg.misce", "make up working to 10 mL", "make up working to 5 mL")],
    level: "verdict",
    of: only("verdict", "digoxin-40mcg"),
    says: [
      "allow: 4 h → not known: no row of stability covers it (4 days by the other limits)",
      "concentration of digoxin in syringe: 50 mcg/mL → 100",
    ],
  },
  {
    name: "a day in place of 24 h",
    edits: [edit(magnesium, "24 h at room-temperature", "1 days at room-temperature")],
    level: "consequence",
    of: only("consequence"),
    // As long, and not the same: a day ends at its clock time.
    says: ["use-within 24 h at room-temperature → use-within 1 days at room-temperature\n"],
  },
  {
    name: "the marks of a syringe of the site's own",
    before: [
      edit(
        "devices.misce",
        /^/,
        "device fine-syringe {\n  kind        syringe\n  capacity    10 mL\n  graduation  0.2 mL\n}\n\n",
      ),
      edit(magnesium, "syringe-10mL", "fine-syringe"),
    ],
    edits: [edit("devices.misce", "graduation  0.2 mL", "graduation  3 mL")],
    level: "verdict",
    of: { "recipe magnesium-4g": "verdict", "device fine-syringe": "fact" },
    // 8 mL lies between 6 and 9 mL.
    says: [
      "graduation 0.2 mL → graduation 3 mL  (+2.8 mL, +1400 %, 15 times)",
      "through device fine-syringe (material syringe)",
      "8 mL → 9 mL",
    ],
  },
];

/** Nothing may be told. */
/** Edits that change words or names only, or facts of the site that bear on no preparation: never more than stated facts. */
export const wordEdits: ClinicalEdit[] = [
  {
    name: "a role that no recipe names",
    edits: [edit("site.misce", "  note ", "  role            senior-technician\n  note ")],
    level: "fact",
    of: { site: "fact" },
    says: ["added: role senior-technician"],
  },
  {
    name: "approvals asked for by the site",
    edits: [edit("site.misce", "  note ", "  approvals       pharmacist\n  note ")],
    level: "fact",
    of: { site: "fact" },
    says: ["added: approvals pharmacist"],
  },
  {
    name: "a line on the label reworded",
    edits: [
      edit(
        "recipes/epidural-levobupivacaine-fentanyl.misce",
        '"For epidural use only."',
        '"For epidural use only. No bolus."',
      ),
    ],
    level: "fact",
    of: only("fact", "epidural-levobupivacaine-fentanyl"),
    says: ['label-text: line "For epidural use only." → line "For epidural use only. No bolus."'],
  },
];

export const silentEdits: [name: string, edits: Edit[]][] = [
  [
    "4 g as 4,000 mg",
    [edit(magnesium, "dose            4 g", "dose 4,000 mg"), edit(magnesium, "draw 4 g", "draw 4,000 mg")],
  ],
  ["1 L as 1,000 mL", [edit("recipes/potassium-magnesium.misce", /diluent-volume +1 L/, "diluent-volume 1,000 mL")]],
  ["4 h as 240 min", [edit(magnesium, /infuse-over +4 h/, "infuse-over 240 min")]],
  ["500 mg/mL as 50 % w/v", [edit(vials, /(stock magnesium-vial-10 \{[^}]*strength +)500 mg\/mL/, "$150 % w/v")]],
  ["lots in another order", [edit("lots.misce", /( +lot.*\n)( +lot.*\n)/, "$2$1")]],
  ["500 mg/mL as 0.5 g/mL", [edit(vials, /(stock magnesium-vial-10 \{[^}]*strength +)500 mg/, "$10.5 g")]],
  ["a limit per litre as per mL", [edit("drugs/potassium-chloride.misce", "up to 40 mEq/L", "up to 0.04 mEq/mL")]],
  ["facts in another order", [edit(magnesium, /( +route +intravenous\n)( +access +peripheral\n)/, "$2$1")]],
  ["materials in another order", [edit(magnesium, /( +mag +magnesium-vial-10\n)( +bag +saline-bag-100\n)/, "$2$1")]],
  ["rows of stability in another order", [edit(monograph, /( {2}stable \{[^}]*\}\n)( {2}stable \{[^}]*\}\n)/, "$2$1")]],
  ["declarations in another order", [edit(vials, /^(stock [^}]*\}\n\n)(stock [^}]*\}\n)/, "$2\n$1")]],
  ["comments", [edit(magnesium, "  order {\n", "  # read again\n  order {   # as ordered\n")]],
  ["blanks and blank lines", [edit(magnesium, /^ {4}/gm, "\n       ")]],
  ["newlines of another system", [edit(magnesium, /\n/g, "\r\n")]],
];
