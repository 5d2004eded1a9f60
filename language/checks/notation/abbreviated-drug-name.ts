import { chunkCheck } from "../check.ts";
import { example } from "../example.ts";
import { inNames, inPrintedText, type Pattern, sayPrintedOrName, writeOut } from "./printed-text.ts";

/** KCl, HCl, MTX, HCT and AZT are in the published list; TNK, TPA and PIT in the ISMP list of 2021 (copy); the others are from memory of lists of the same kind. */
const names: Readonly<Record<string, readonly string[]>> = {
  KCL: ["potassium chloride"],
  NACL: ["sodium chloride"],
  NAHCO3: ["sodium bicarbonate"],
  CACL: ["calcium chloride"],
  CACL2: ["calcium chloride"],
  ZNSO4: ["zinc sulfate"],
  KH2PO4: ["potassium dihydrogen phosphate"],
  HCL: ["hydrochloride", "hydrochloric acid"],
  MTX: ["methotrexate", "mitoxantrone"],
  HCT: ["hydrochlorothiazide", "hydrocortisone"],
  HCTZ: ["hydrochlorothiazide"],
  AZT: ["zidovudine", "azathioprine", "aztreonam"],
  VCR: ["vincristine"],
  VBL: ["vinblastine"],
  "ARA-C": ["cytarabine"],
  ARAC: ["cytarabine"],
  TNK: ["tenecteplase"],
  TPA: ["alteplase"],
  PIT: ["oxytocin", "vasopressin"],
  "5-FU": ["fluorouracil"],
  "5FU": ["fluorouracil"],
  "6-MP": ["mercaptopurine"],
};

const patterns: readonly Pattern[] = [
  {
    pattern:
      /\b(?:K[Cc][Ll]|Na[Cc]l|NaHCO3|CaCl2?|ZnSO4|KH2PO4|H[Cc][Ll]|MTX|HCT|HCTZ|AZT|VCR|VBL|[56]-(?:FU|MP)|5FU|ARA-?A|[Aa][Rr][Aa]-?C|CPZ|PTU|TNK|r?[Tt]PA|PIT)\b/g,
    meanings: ([text]) => names[text.toUpperCase()] ?? [],
    detail: "Short forms of drug names are taken for each other.",
  },
];

const inNamesShort = {
  kcl: ["potassium chloride"],
  nacl: ["sodium chloride"],
  cacl2: ["calcium chloride"],
  nahco3: ["sodium bicarbonate"],
  mtx: ["methotrexate", "mitoxantrone"],
  hct: ["hydrochlorothiazide", "hydrocortisone"],
  azt: ["zidovudine", "azathioprine", "aztreonam"],
  vcr: ["vincristine"],
  vbl: ["vinblastine"],
  "5fu": ["fluorouracil"],
  tpa: ["alteplase"],
  tnk: ["tenecteplase"],
};

export const abbreviatedDrugName = chunkCheck({
  name: "abbreviated-drug-name",
  family: "notation",
  severity: "warning",
  title: "An abbreviated drug name in printed text",
  why: "Formulas are taken for each other, KCl for HCl, and one abbreviation stands for several drugs.",
  source:
    "Error-prone abbreviations, symbols and dose designations not to use (New Zealand national medication safety programme)",
  rows: ["error-prone-notation chem-abbrev", "error-prone-notation drug-abbrev"],
  bad: example([
    "  light          not-sensitive",
    '  light          not-sensitive\n  note           "Not to be given with KCl."',
  ]),
  good: example([
    "  light          not-sensitive",
    '  light          not-sensitive\n  note           "Not to be given with potassium chloride."',
  ]),
  find: (context) => [...inNames(context, inNamesShort), ...inPrintedText(context, patterns)],
  say: sayPrintedOrName,
  fixes: writeOut,
});
