/**
 * Lines of the label of recipes of the sample library, in words that hospitals print: half of them true in an odd wording, half wrong in a way that
 * could hurt. The figures follow from the recipes; what a colleague would fear of each is common practice, from memory.
 */
import { areJudged, type Odd } from "./odd-sayings.ts";

const table: readonly Odd[] = [
  [
    "magnesium-4g",
    [
      ["Give 270 mL every hour", "270 mL every hour;"],
      ["Rate 4 g per hour", "4 g per hour;"],
      ["Infuse the whole bag over forty minutes", "over forty minutes;"],
      ["Contains 162 mmol magnesium", "162 mmol of magnesium;"],
      ["1 mL = 4 g", "1 mL = 4 g;"],
      ["Each 10 mL contains 3.7 g", "10 mL = 3.7 g;"],
    ],
    [
      "May be diluted in glucose 5 %",
      "Give 27 mL every hour",
      "Rate 1 g per hour",
      "Rate 1 g/h (27 mL/h)",
      "Infuse the whole bag over four hours",
      "Finish within 24 hours of making",
      "Volume incl. overfill about 108 mL",
      "Contains 16.2 mmol magnesium",
      "Osmolality not measured",
      "Each 10 mL contains 370 mg",
      "Ten millilitres contain 0.37 g",
    ],
  ],
  [
    "noradrenaline-8mg-syringe",
    [
      ["1 mL/h = 16 micrograms per hour", "1 mL/h = 16 micrograms per hour;"],
      ["1 mL/h equals 26.7 mcg/min", "1 mL/h = 26.7 mcg/min;"],
      ["For 70 kg: 0.1 mcg/kg/min = 26 mL/h", "0.1 mcg/kg/min at 26 mL/h;"],
      ["Single strength: 80 mcg/mL", "80 mcg/mL;"],
      ["Bolus 1 mL = 1.6 mg", "1 mL = 1.6 mg;"],
    ],
    [
      "0.16 mg in 1 mL",
      "1 mL/h = 160 micrograms per hour",
      "1 mL/h equals 2.67 mcg/min",
      "Central line only if required by ward policy",
      "For 70 kg: 0.1 mcg/kg/min = 2.6 mL/h",
      "Change syringe every 12 h",
    ],
  ],
  [
    "insulin-100-units",
    [
      ["1 unit = 0.1 mL", "1 unit = 0.1 mL;"],
      ["5 units/h = 50 mL/h", "5 units/h = 50 mL/h;"],
      ["100 units in 50 mL", "50 mL;"],
      ["Insulin 10 units/mL", "10 units/mL;"],
      ["Soluble insulin 100 units/mL", "100 units/mL;"],
    ],
    ["1 unit = 1 mL", "5 units/h = 5 mL/h", "Start 0.05 units/kg/h", "Contains potassium-free diluent"],
  ],
  [
    "vancomycin-1g",
    [
      ["Give as slow bolus", "as slow bolus;"],
      ["Not faster than 100 mg/min", "Not faster than 100 mg/min;"],
      ["Give 1 g over 5 minutes", "over 5 minutes;"],
      ["Run at 2,500 mL/h", "2,500 mL/h;"],
      ["1 g/25 mL", "25 mL;"],
      ["Refrigerate, use within 30 days", "30 days;"],
    ],
    [
      "Not faster than 10 mg/min",
      "Rate not above 10 mg/min",
      "Trough 10 to 20 mg/L",
      "Take level before third dose",
      "Reconstitute with 20 mL water for injections",
      "Do not give as a bolus",
    ],
  ],
  [
    "potassium-20mmol",
    [
      ["20 mmol per 100 mL", "100 mL;"],
      ["20 mmol/h", "20 mmol/h;"],
      ["Give 500 mL over 1 h", "over 1 h;"],
      ["Contains sodium chloride 0.9 %", "sodium chloride 0.9 %;"],
      ["For central line only, 200 mmol/L", "central line;"],
    ],
    ["20 mmol per litre", "Max rate 10 mmol/h", "Peripheral: no more than 40 mmol/L", "Contains chloride 20 mmol"],
  ],
  [
    "epidural-levobupivacaine-fentanyl",
    [
      ["Levobupivacaine 0.5 %, fentanyl 2 mcg/mL", "0.5 %;"],
      ["Fentanyl 20 mcg/mL", "20 mcg/mL;"],
      ["Bolus 5 mL = fentanyl 100 mcg", "5 mL = 100 mcg;"],
      ["Give into a central vein", "into a central vein;"],
    ],
    [
      "Levobupivacaine 0.1 %, fentanyl 2 mcg/mL",
      "Background 8 mL/h, bolus 5 mL, lockout 20 min",
      "NOT FOR INTRAVENOUS INFUSION",
      "Lipid rescue at the bedside: lipid emulsion 20 %",
      "Bolus 5 mL = fentanyl 10 mcg",
    ],
  ],
  [
    "digoxin-40mcg",
    [
      ["0.8 mL = 400 mcg", "0.8 mL = 400 mcg;"],
      ["8 mL = 40 mcg", "8 mL = 40 mcg;"],
    ],
    ["0.8 mL = 40 mcg", "Give slowly over 5 min"],
  ],
  ["phenylephrine-10mg-100mL", [], ["Titrate 25 to 100 mcg/min"]],
  [
    "amiodarone-900mg",
    [
      ["Use sodium chloride 0.9 % only", "sodium chloride;"],
      ["Use only sodium chloride", "sodium chloride;"],
      ["Give 900 mg over 24 min", "over 24 min;"],
      ["1.8 mg per litre", "1.8 mg per litre;"],
    ],
    [
      "Central access preferred",
      "Never in sodium chloride 0.9 %",
      "Use glucose 5 % only",
      "Give over 24 h, rate 21.6 mL/h",
    ],
  ],
  [
    "vasopressin-100-units",
    [
      ["0.01 units/min = 6 mL/h", "0.01 units/min = 6 mL/h;"],
      ["0.04 units/h = 2.4 mL/h", "0.04 units/h = 2.4 mL/h;"],
      ["0.04 units/min is 24 mL an hour", "0.04 units/min = 24 mL an hour;"],
      ["Vasopressin 20 units/mL", "20 units/mL;"],
    ],
    ["0.01 units/min = 0.6 mL/h", "0.04 units/min is 2.4 mL an hour"],
  ],
  [
    "nitroprusside-50mg",
    [
      ["No light protection needed", "No light protection needed;"],
      ["70 kg: 0.5 mcg/kg/min = 105 mL/h", "0.5 mcg/kg/min at 105 mL/h;"],
      ["For a 70 kg adult 105 mL/h gives 0.5 mcg/kg/min", "105 mL/h for 0.5 mcg/kg/min;"],
    ],
    [
      "Cover with foil; use light-protected line",
      "Replace after 24 h",
      "70 kg: 0.5 mcg/kg/min = 10.5 mL/h",
      "For a 70 kg adult 10.5 mL/h gives 0.5 mcg/kg/min",
    ],
  ],
  ["ketamine-500mg-of-50", [["S-ketamine 500 mg", "S-ketamine;"]], ["Ketamine (as hydrochloride) 500 mg"]],
  [
    "phosphate-calcium",
    [
      ["Phosphate 10 mmol, calcium 46 mmol", "46 mmol;"],
      ["Contains potassium 10 mmol", "potassium 10 mmol;"],
    ],
    ["Phosphate 10 mmol, calcium 4.6 mmol"],
  ],
  ["pantoprazole-80mg", [["8 mg in each mL", "8 mg in 1 mL;"]], ["0.8 mg in each mL"]],
  [
    "midazolam-25mg-syringe",
    [
      ["25 mg per 5 mL", "5 mL;"],
      ["125 mg per 50 mL", "125 mg;"],
    ],
    ["25 mg per 50 mL"],
  ],
  [
    "furosemide-200mg",
    [
      ["Not more than 40 mg/min", "Not more than 40 mg/min;"],
      ["Give 200 mg IV push", "IV push;"],
    ],
    ["Not more than 4 mg/min"],
  ],
  [
    "oxytocin-40-units",
    [
      ["40 units/mL", "40 units/mL;"],
      ["4 milliunits/mL", "4 milliunits/mL;"],
    ],
    ["40 milliunits/mL"],
  ],
];

areJudged("", table);
