/**
 * Unit spellings that are read but not safe, and those that could mean two things and are therefore not read.
 * Rules are ids of rows in the published list of error-prone notation (tests/reference/measuring), where one speaks of it;
 * `unit-case`, `unit-spelling` and `customary-unit` are the tool's own.
 */
export interface Misspelling {
  /** Canonical spelling of the unit meant; absent where two readings are possible. */
  means?: string;
  rule: string;
  /** One sentence: why it is not safe. */
  why: string;
}

const sign = "The micro sign, or u in its place, has been read as m: a thousand times more.";
const units = "U and u have been read as 0, 4 or cc.";
const international = "IU has been read as IV or as 10.";
const cubic = "cc and cm3 are read as u or as zeros; the millilitre says the same.";
const litre = "A small l looks like the figure 1.";
const gamma = "Gamma is an old sign for the microgram, and few still read it so.";
/** An exposure has one form, the target with the unit AUC behind it. */
export const byExposure =
  "AUC is an exposure: the dose follows from it by the patient's clearance, for carboplatin AUC × (GFR in mL/min + 25) in mg. Write the target with its figure in front, such as `5 AUC`, with the patient's `clearance` as a line of the order, or the dose worked out, such as 575 mg.";
/** What is in a container then depends on the minute at which it is measured, which no step states. */
const radioactivity =
  "The activity of a radioactive drug decays from minute to minute, so no figure of it holds for a recipe. Radiopharmaceuticals are outside the language: prepare them by the written procedure of the radiopharmacy.";
const nano = "ng has been read as mg or as nasogastric.";
const short = "This short form is not in use for it.";

const rows: readonly [rule: string, why: string, pairs: string][] = [
  ["unit-U", units, "U=units u=units Us=units"],
  [
    "unit-IU",
    international,
    "IU=international-units iu=international-units IUs=international-units I.U=international-units I.U.=international-units " +
      "i.u.=international-units UI=international-units IE=international-units I.E=international-units I.E.=international-units",
  ],
  ["cc", cubic, "cc=mL CC=mL ccs=mL c.c=mL c.c.=mL"],
  ["cm3", cubic, "cm3=mL cm³=mL ccm=mL"],
  [
    "ug-sign",
    sign,
    // First the micro sign (U+00B5), then the Greek letter (U+03BC), then u.
    "µg=mcg μg=mcg ug=mcg µL=mcL μL=mcL uL=mcL µl=mcL μl=mcL ul=mcL µmol=mcmol μmol=mcmol umol=mcmol " +
      "µm=micrometre μm=micrometre um=micrometre",
  ],
  ["nanogram", nano, "ng=nanograms Ng=nanograms NG=nanograms"],
  ["ug-sign", gamma, "γ=mcg gamma=mcg"],
  ["litre-l", litre, "l=L"],
  ["ml-lower", litre, "ml=mL"],
  [
    "unit-spelling",
    short,
    "gm=g gms=g Gm=g Gms=g hr=h hrs=h sec=s secs=s mins=min wk=weeks wks=weeks mo=months yr=years yrs=years d=days gtt=drops " +
      "milliliter=mL milliliters=mL liter=L liters=L microliter=mcL microliters=mcL micrometer=micrometre " +
      "degC=C Cel=C m²=m2 m^2=m2 sqm=m2 Gauge=gauge ga=gauge " +
      // Spellings of other countries and of their labels, each with one reading.
      "gramme=g grammes=g milligramme=mg milligrammes=mg kilogramme=kg kilogrammes=kg microgramme=mcg microgrammes=mcg " +
      "mgm=mg mgms=mg grm=g grms=g mequiv=mEq mVal=mEq millimol=mmol micromol=mcmol nanog=nanograms kilo=kg kilos=kg " +
      "microg=mcg MLS=mL Mls=mL mmole=mmol mmoles=mmol mval=mEq " +
      "mOsmol=mOsm mosmol=mOsm mosmole=mOsm mosmoles=mOsm milliosmol=mOsm Osmol=Osm osmol=Osm",
  ],
  [
    "microunits",
    "A micro- or milliunit is easily taken for a unit; the word milliunits or a figure in units is safer.",
    "microunits=microunits microunit=microunits",
  ],
  ["apothecary", "Apothecary units are unfamiliar, and gr reads as gram.", "gr=gr grain=gr grains=gr"],
];

const refusals: readonly [rule: string, why: string, spellings: string][] = [
  [
    "microunits",
    "mU can mean milliunits or microunits. Write milliunits, or the figure in units.",
    "mU mu mUs uU µU μU mIU uIU µIU μIU",
  ],
  [
    "million-M",
    "M has meant both thousand and million. Write million units or thousand units, whichever is meant.",
    "MU MIU MM MUI MIE",
  ],
  ["thousand-K", "K has been taken for a thousand and for potassium. Write thousand units.", "KU kU KIU kIU"],
  ["apothecary", "A dram can be a weight or a volume. Write g or mL.", "dram drams dr minim minims scruple"],
  ["unit-case", "G can mean gram or gauge. Write g or gauge, whichever is meant.", "G"],
  [
    "unit-case",
    "M in a unit stands for mol/L, and small it is the metre. Write mmol/L or mm, whichever is meant.",
    "mM",
  ],
  ["unit-case", "M in a unit stands for mol/L, and small it is the metre. Write mcmol/L.", "µM μM uM"],
  [
    "customary-unit",
    radioactivity,
    "Bq kBq MBq GBq TBq becquerel becquerels megabecquerel megabecquerels gigabecquerel gigabecquerels " +
      "Ci mCi µCi μCi uCi mcCi nCi kCi curie curies millicurie millicuries microcurie microcuries",
  ],
  [
    "customary-unit",
    byExposure,
    // The pieces between slashes of mg/mL.min and mg.min/mL.
    "auc mL.min mL·min mL*min mL⋅min mg.min mg·min mg*min mg⋅min",
  ],
];

function table(): Map<string, Misspelling> {
  const map = new Map<string, Misspelling>();
  for (const [rule, why, pairs] of rows) {
    for (const pair of pairs.split(" ")) {
      const [spelling = "", means = ""] = pair.split("=");
      map.set(spelling, { rule, why, means: means.replace("-", " ") });
    }
  }
  for (const [rule, why, spellings] of refusals) {
    for (const spelling of spellings.split(" ")) map.set(spelling, { rule, why });
  }
  return map;
}

/** By exact spelling of one part of a unit, i.e. what stands between slashes. */
export const misspellings: ReadonlyMap<string, Misspelling> = table();
