/**
 * Titles of recipes of the sample library, in words that hospitals print: half of them true in an odd wording, half wrong in a way that
 * could hurt. The figures follow from the recipes; what a colleague would fear of each is common practice, from memory.
 */
import { areJudged, type Odd } from "./odd-sayings.ts";

const table: readonly Odd[] = [
  [
    "magnesium-4g",
    [
      ["Magnesium sulfate 4 mg in sodium chloride 0.9 % 100 mL", "4 mg;"],
      ["Magnesium sulfate 4 mmol in sodium chloride 0.9 % 100 mL", "4 mmol;"],
      ["Magnesium sulfate 40 mL of 50 % in sodium chloride 0.9 % 100 mL", "40 mL of 50 %;"],
      ["Magnesium sulfate 4 g in water for injections 100 mL", "water for injections;"],
      ["Magnesium sulfate 4 g over 20 minutes", "20 minutes;"],
      ["Magnesium sulfate 1 g/mL in sodium chloride 0.9 % 100 mL", "1 g/mL;"],
      ["Magnesium sulfate 4 g (32 mmol) in sodium chloride 0.9 % 100 mL", "32 mmol;"],
      ["Magnesium sulfate 4 g at 1 g/min", "1 g/min;"],
      ["Magnesium sulfate 4 g at 100 mL/h", "100 mL/h;"],
      ["Magnesium sulfate 4 g daily for nebuliser", "for nebuliser;"],
    ],
    [
      "IV magnesium sulfate 4 g over 4 hours in 0.9 % sodium chloride (100 mL bag)",
      "Magnesium sulfate 4,000 mg / 108 mL",
      "Pre-eclampsia bag: magnesium sulfate 4 g in saline",
      "Magnesium sulfate four grams in sodium chloride 0.9 % 100 mL",
      "Magnesium sulfate 37 mg/mL, 108 mL, sodium chloride 0.9 %",
      "Bag of magnesium sulfate, 8 mL of 50 % added to sodium chloride 0.9 % 100 mL",
    ],
  ],
  [
    "noradrenaline-8mg-syringe",
    [
      ["Noradrenaline quadruple strength 16 mg/50 mL glucose 5 %", "16 mg;"],
      ["Noradrenaline 8 mg in 50 mL (160 mg/mL) glucose 5 %", "160 mg/mL;"],
      ["Noradrenaline tartrate 8 mg in glucose 5 % 50 mL", "8 mg;"],
      ["Noradrenaline 8 mg in glucose 5 % 500 mL", "500 mL;"],
      ["Noradrenaline 0.08 mg/mL in glucose 5 %", "0.08 mg/mL;"],
      ["Noradrenaline single strength 4 mg in 50 mL glucose 5 %", "4 mg;"],
    ],
    [
      "Noradrenaline double strength: 8 mg/50 mL glucose 5 %",
      "Noradrenaline 8 mg in 50 mL (160 micrograms/mL) glucose 5 %",
      "Noradrenaline base 8 mg (= 16 mg tartrate) in glucose 5 %",
    ],
  ],
  [
    "insulin-100-units",
    [
      ["Insulin aspart 100 units in sodium chloride 0.9 % 100 mL", "beside insulin aspart"],
      ["Soluble insulin 100 units in sodium chloride 0.9 % 50 mL", "50 mL;"],
      ["Soluble insulin 1,000 units in sodium chloride 0.9 % 100 mL", "1,000 units;"],
      ["Soluble insulin 100 mg in sodium chloride 0.9 % 100 mL", "100 mg;"],
      ["Soluble insulin 100 units SC", "SC;"],
      ["Soluble insulin 10 mL of 100 units/mL in sodium chloride 0.9 % 100 mL", "10 mL of 100 units/mL;"],
    ],
    [
      "Insulin (soluble, human) 100 units in 100 mL sodium chloride 0.9 %, 1 unit/mL",
      "Soluble insulin one unit per millilitre, 100 mL",
      "Soluble insulin 100 international units in sodium chloride 0.9 % 100 mL",
    ],
  ],
  [
    "vancomycin-1g",
    [
      ["Vancomycin 1 g in sodium chloride 0.9 % 100 mL", "100 mL;"],
      ["Vancomycin 40 mg/mL, 250 mL bag", "40 mg/mL;"],
      ["Vancomycin 1 g orally", "orally;"],
      ["Vancomycin 15 mg/kg/dose for 10 kg in sodium chloride 0.9 % 250 mL", "15 mg/kg/dose;"],
      ["Vancomycin 1 g x 2 in sodium chloride 0.9 % 250 mL", "2 x 1 g;"],
      ["Vancomycin 2 x 1 g in sodium chloride 0.9 % 250 mL", "2 x 1 g;"],
    ],
    ["Vancomycin 1,000 mg/250 mL", "Vancomycin 4 mg/mL, 250 mL bag"],
  ],
  [
    "potassium-20mmol",
    [
      ["Potassium chloride 20 mmol in glucose 5 % 100 mL", "100 mL;"],
      ["Potassium chloride 0.3 % in glucose 5 % 1 L", "0.3 %;"],
      ["Potassium chloride 1.5 % in glucose 5 % 1 L", "1.5 %;"],
      ["Potassium chloride 20 mmol/mL in glucose 5 % 1 L", "20 mmol/mL;"],
      ["Potassium phosphate 20 mmol in glucose 5 % 1 L", "potassium phosphate;"],
      ["1 L glucose 10 % with potassium chloride 20 mmol", "glucose 10 %;"],
      ["Potassium chloride 20 g in glucose 5 % 1 L", "20 g;"],
    ],
    [
      "Potassium 20 mmol/L in glucose 5 %, 1 L",
      "1 L glucose 5 % with potassium chloride 20 mmol",
      "Potassium chloride 0.15 % in glucose 5 % 1 L",
    ],
  ],
  [
    "epidural-levobupivacaine-fentanyl",
    [
      ["Levobupivacaine 0.125 % with fentanyl 2 micrograms/mL, 250 mL, epidural", "0.125 %;"],
      ["Levobupivacaine 0.1 % with fentanyl 4 micrograms/mL, 250 mL, epidural", "4 micrograms/mL;"],
      ["Levobupivacaine 0.1 % with fentanyl 2 mg/mL, 250 mL, epidural", "2 mg/mL;"],
      ["Levobupivacaine 0.1 % with fentanyl 2 micrograms/mL, 500 mL, epidural", "500 mL;"],
      ["Levobupivacaine 250 mg, fentanyl 5 mg, in sodium chloride 0.9 % 250 mL, epidural", "5 mg of fentanyl;"],
      ["Fentanyl 250 mg and levobupivacaine 500 mcg in sodium chloride 0.9 % 250 mL, epidural", "250 mg of fentanyl;"],
      ["Levobupivacaine 0.1 % with morphine 2 micrograms/mL, 250 mL, epidural", "beside morphine"],
    ],
    [
      "Levobupivacaine 0.1 % with fentanyl 2 micrograms/mL, 250 mL, epidural",
      "Epidural: levobupivacaine 1 mg/mL + fentanyl 2 mcg/mL",
      "Levobupivacaine 0.1%/fentanyl 2 mcg/mL 250 mL epidural bag",
    ],
  ],
  [
    "digoxin-40mcg",
    [
      ["Digoxin 0.4 mg, 0.8 mL", "0.4 mg;"],
      ["Digoxin 40 mcg in 8 mL", "8 mL;"],
      ["Digoxin 400 micrograms", "400 micrograms;"],
      ["Digoxin 40 mcg/kg", "40 mcg/kg;"],
      ["Digoxin 40 mcg for an adult", "adult;"],
      ["Digoxin 40 mcg IM", "IM;"],
    ],
    ["Digoxin forty micrograms in 0.8 mL", "Digoxin 0.04 mg, 0.8 mL, neonatal"],
  ],
  [
    "calcium-1g-syringe",
    [
      ["Calcium gluconate 1 g (Ca 23 mmol), syringe of 50 mL", "23 mmol;"],
      ["Calcium chloride 10 mL of 10 % in 50 mL sodium chloride 0.9 %", "calcium chloride;"],
      ["Calcium gluconate 10 mL of 20 % in 50 mL sodium chloride 0.9 %", "10 mL of 20 %;"],
    ],
    [
      "Calcium gluconate 10 mL of 10 % in 50 mL sodium chloride 0.9 %",
      "Calcium gluconate 1 g (Ca 2.3 mmol), syringe of 50 mL",
    ],
  ],
  [
    "phenylephrine-10mg-100mL",
    [
      ["Phenylephrine 100 mg/mL, 100 mL", "100 mg/mL;"],
      ["Phenylephrine 1 mg/mL, 100 mL", "1 mg/mL;"],
    ],
    ["Phenylephrine 100 micrograms/mL, 100 mL"],
  ],
  [
    "amiodarone-900mg",
    [
      ["Amiodarone 900 mg in normal saline 500 mL", "normal saline;"],
      ["Amiodarone 900 mg (6 mL of 150 mg/mL) in glucose 5 % 500 mL", "6 mL of 150 mg/mL;"],
      ["Amiodarone 90 mg in glucose 5 % 500 mL", "90 mg;"],
      ["Amiodarone 900 mg in glucose 10 % 500 mL", "glucose 10 %;"],
      ["Aminophylline 900 mg in glucose 5 % 500 mL", "aminophylline;"],
      ["Amiodarone 9 g in glucose 5 % 500 mL", "9 g;"],
    ],
    [
      "Amiodarone 900 mg (18 mL of 50 mg/mL) in glucose 5 % 500 mL",
      "Amiodarone 0.9 g in D5W 500 mL over 24 h",
      "Amiodarone hydrochloride 900 mg in dextrose 5 % 500 mL",
    ],
  ],
  [
    "vasopressin-100-units",
    [
      ["Desmopressin 100 units in sodium chloride 0.9 % 100 mL", "does not name vasopressin"],
      ["Vasopressin 20 units in sodium chloride 0.9 % 100 mL", "20 units;"],
      ["Vasopressin 100 mg in sodium chloride 0.9 % 100 mL", "100 mg;"],
      ["Vasopressin 0.2 units/mL, 100 mL", "0.2 units/mL;"],
      ["Oxytocin 100 units in sodium chloride 0.9 % 100 mL", "oxytocin;"],
    ],
    ["Vasopressin 1 unit/mL, 100 mL"],
  ],
  [
    "nitroprusside-50mg",
    [
      ["Sodium nitroprusside 50 mg in glucose 5 % 250 mL (2 mg/mL)", "2 mg/mL;"],
      ["Sodium nitroprusside 50 mg in sodium chloride 0.9 % 250 mL", "sodium-chloride-0.9;"],
      ["Sodium nitrite 50 mg in glucose 5 % 250 mL", "does not name nitroprusside"],
      ["Glyceryl trinitrate 50 mg in glucose 5 % 250 mL", "does not name nitroprusside"],
    ],
    [
      "Sodium nitroprusside 50 mg in glucose 5 % 250 mL (200 mcg/mL)",
      "Nitroprusside 200 micrograms/mL in 250 mL glucose 5 %",
    ],
  ],
  [
    "ketamine-500mg-of-50",
    [
      ["Esketamine 500 mg in sodium chloride 0.9 % 250 mL", "does not name ketamine"],
      ["Ketamine 500 mg, 20 mg/mL, 250 mL", "20 mg/mL;"],
      ["Ketamine hydrochloride 500 mg in sodium chloride 0.9 % 250 mL", "500 mg;"],
      ["Ketorolac 500 mg in sodium chloride 0.9 % 250 mL", "does not name ketamine"],
    ],
    ["Ketamine 500 mg, 2 mg/mL, 250 mL", "Ketamine base 500 mg in sodium chloride 0.9 % 250 mL"],
  ],
  [
    "phosphate-calcium",
    [
      [
        "Sodium glycerophosphate 10 mmol and calcium gluconate 20 g in glucose 5 % 250 mL",
        "20 g of calcium-gluconate;",
      ],
      [
        "Sodium glycerophosphate 100 mmol and calcium gluconate 2 g in glucose 5 % 250 mL",
        "100 mmol of sodium-glycerophosphate;",
      ],
      ["Sodium phosphate 10 mmol and calcium gluconate 2 g in glucose 5 % 250 mL", "sodium phosphate;"],
      ["Potassium phosphate 10 mmol and calcium gluconate 2 g in glucose 5 % 250 mL", "beside potassium phosphate"],
      ["Sodium glycerophosphate 10 mmol and calcium chloride 2 g in glucose 5 % 250 mL", "calcium chloride;"],
    ],
    ["Sodium glycerophosphate 10 mmol + calcium gluconate 2 g in 250 mL glucose 5 %"],
  ],
  [
    "pantoprazole-80mg",
    [
      ["Pantoprazole 80 mg/100 mL sodium chloride 0.9 %, 80 mg/h", "80 mg/h;"],
      ["Omeprazole 80 mg in sodium chloride 0.9 %, made up to 100 mL in an empty bag", "does not name pantoprazole"],
      ["Pantoprazole 40 mg in sodium chloride 0.9 %, made up to 100 mL in an empty bag", "40 mg;"],
    ],
    ["Pantoprazole 80 mg/100 mL sodium chloride 0.9 %, 8 mg/h"],
  ],
  [
    "midazolam-25mg-syringe",
    [
      ["Midazolam 5 mg/mL, 50 mL syringe", "5 mg/mL;"],
      ["Midazolam 25 mg in sodium chloride 0.9 %, syringe of 5 mL", "5 mL;"],
    ],
    ["Midazolam 0.5 mg/mL, 50 mL syringe, PICU"],
  ],
  [
    "furosemide-200mg",
    [
      ["Torasemide 200 mg in sodium chloride 0.9 % 250 mL", "does not name furosemide"],
      ["Furosemide 200 mg in sodium chloride 0.9 % 250 mL over 10 min", "10 min;"],
    ],
    ["Furosemide (frusemide) 200 mg in sodium chloride 0.9 % 250 mL"],
  ],
  [
    "oxytocin-40-units",
    [
      ["Oxytocin 40 IU in 500 mL", "500 mL;"],
      ["Carbetocin 40 units in Ringer's lactate 1 L", "does not name oxytocin"],
      ["Oxytocin 40 mg in Ringer's lactate 1 L", "40 mg;"],
    ],
    ["Oxytocin 40 units in compound sodium lactate 1,000 mL"],
  ],
  [
    "vancomycin-1.5g",
    [["Vancomycin 1.5 g (1 g and 1 g) in sodium chloride 0.9 % 500 mL", "1 g;"]],
    [
      "Vancomycin 3 x 500 mg in sodium chloride 0.9 % 500 mL",
      "Vancomycin 1.5 g (1 g and 500 mg) in sodium chloride 0.9 % 500 mL",
    ],
  ],
  [
    "ceftriaxone-1g-batch",
    [["Ceftriaxone 6 x 1 g in sodium chloride 0.9 % 50 mL", "6 x 1 g;"]],
    ["Ceftriaxone 4 x 1 g in sodium chloride 0.9 % 50 mL"],
  ],
  [
    "oxytocin-10-units",
    [["Oxytocin 10 units in Ringer's acetate 1 L", "Ringer's;"]],
    ["Oxytocin 10 units in Ringer's lactate 1 L", "Oxytocin 10 units in Hartmann's solution 1 L"],
  ],
];

areJudged("title: ", table);
