/**
 * Names of drugs as wards shorten them, written out: `Norad 8 mg`, `Mag sulf 4 g`, `KCl 20 mmol`, `Vanc 1 g`. A short name is the ordered drug's
 * where it is the beginning of its name, and another drug's where it is the beginning of that one's or its customary short form.
 */
import { orderedDrugs } from "../../bench/stray-drugs.ts";
import type { Recipe } from "../../model/declaration.ts";
import { keptWith } from "../../model/kept-with.ts";
import type { Lookup } from "../../model/lookup.ts";
import { mostSentences, remembered } from "../../quantities/remembered.ts";
import { isOfPreparation } from "./bare-figures.ts";
import { looksLikeDrug } from "./drug-like-words.ts";
import { isSaltWord } from "./salt-words.ts";
import { namesOf, ownWords, wordsOf } from "./words-against-order.ts";

/** Short forms of wards (common practice, from memory); the first of several is taken where none is ordered. */
const customary: Readonly<Record<string, readonly string[]>> = Object.fromEntries(
  (
    "aciclo:aciclovir adren:adrenaline alf:alfentanil alfent:alfentanil amio:amiodarone amox:amoxicillin ampho:amphotericin atrac:atracurium " +
    "azithro:azithromycin benpen:benzylpenicillin bupi:bupivacaine cefaz:cefazolin ceftaz:ceftazidime ceftriax:ceftriaxone cipro:ciprofloxacin " +
    "clinda:clindamycin clonid:clonidine cyclo:cyclophosphamide,cyclosporine,ciclosporin dalte:dalteparin dapto:daptomycin dex:dexamethasone," +
    "dexmedetomidine dexa:dexamethasone dexmed:dexmedetomidine diaz:diazepam dig:digoxin dobut:dobutamine dopa:dopamine doxo:doxorubicin " +
    "enox:enoxaparin epi:epinephrine,epirubicin ery:erythromycin esmo:esmolol fent:fentanyl fluclox:flucloxacillin furo:furosemide " +
    "gent:gentamicin gtn:glyceryl hep:heparin hydrocort:hydrocortisone ins:insulin keta:ketamine ket:ketamine labet:labetalol " +
    "levo:levofloxacin,levobupivacaine,levosimendan,levetiracetam lido:lidocaine lig:lidocaine,lignocaine loraz:lorazepam " +
    "mero:meropenem metaram:metaraminol metho:methotrexate methylpred:methylprednisolone metro:metronidazole mida:midazolam midaz:midazolam " +
    "milr:milrinone mito:mitomycin,mitoxantrone morph:morphine mtx:methotrexate nalox:naloxone nico:nicardipine nitro:glyceryl,nitroprusside " +
    "norad:noradrenaline norepi:norepinephrine octreo:octreotide onda:ondansetron oxy:oxytocin,oxycodone panto:pantoprazole para:paracetamol " +
    "pheno:phenobarbital phenyl:phenylephrine pheny:phenytoin pred:prednisolone prop:propofol,propranolol remi:remifentanil rifa:rifampicin roc:rocuronium " +
    "ropi:ropivacaine salb:salbutamol snp:nitroprusside sufent:sufentanil sux:suxamethonium tacro:tacrolimus tazo:tazobactam teic:teicoplanin " +
    "terb:terbutaline thio:thiopental,thiotepa tobra:tobramycin tram:tramadol tranex:tranexamic vanc:vancomycin vanco:vancomycin vaso:vasopressin " +
    "vec:vecuronium vinc:vincristine,vinblastine zole:zoledronic"
  )
    .split(" ")
    .map((entry) => entry.split(":"))
    .map(([short, meant]) => [short!, meant!.split(",")]),
);

const formulas: readonly (readonly [RegExp, string])[] = [
  [/\bKCl\b/g, "potassium chloride"],
  [/\bNaCl\b/g, "sodium chloride"],
  [/\bMgSO4\b/g, "magnesium sulfate"],
  [/\bCaCl2?\b/g, "calcium chloride"],
  [/\bNaHCO3\b/g, "sodium bicarbonate"],
  [/\bhypertonic saline\b/gi, "sodium chloride"],
];
const metals: Readonly<Record<string, string>> = {
  ca: "calcium",
  cal: "calcium",
  calc: "calcium",
  k: "potassium",
  mag: "magnesium",
  mg: "magnesium",
  na: "sodium",
  pot: "potassium",
  sod: "sodium",
};
const acids: Readonly<Record<string, string>> = {
  acet: "acetate",
  bicarb: "bicarbonate",
  chlor: "chloride",
  gluc: "gluconate",
  glucon: "gluconate",
  phos: "phosphate",
  sulf: "sulfate",
  sulph: "sulfate",
};
const either = (names: Readonly<Record<string, string>>) => Object.keys(names).join("|");
/** `Mag sulf`, `Mag sulfate`, `Pot. chlor.`; behind a figure `mg` is a unit. */
const salts = new RegExp(
  `(?<!\\d ?)\\b(${either(metals)})\\.? (?:(${either(acids)})\\b\\.?|(${Object.values(acids).join("|")})\\b)`,
  "gi",
);
const symbols: Readonly<Record<string, string>> = {
  Na: "sodium",
  K: "potassium",
  Ca: "calcium",
  Mg: "magnesium",
  Zn: "zinc",
  Cl: "chloride",
  PO4: "phosphate",
};
/** `K+ 20 mmol`, `16 mmol Mg2+`: beside an amount that ions are counted in, a symbol is the ion. */
const ions = new RegExp(
  `\\b(${either(symbols)})(?:[23]?[+-]{1,2}|[²³]?[⁺⁻])?(?=:? ?\\d[\\d.,]* ?(?:mmol|mEq)\\b)|` +
    `(?<=\\d ?(?:mmol|mEq)(?: of)? )(${either(symbols)})(?:[23]?[+-]{1,2}|[²³]?[⁺⁻]|\\b)(?![\\w/])`,
  "g",
);
const anyFixed =
  /\b(?:mmol|mEq)\b|\b(?:KCl|NaCl|MgSO4|CaCl2?|NaHCO3|hypertonic saline)\b|\b(?:ca|cal|calc|k|mag|mg|na|pot|sod)\.? [a-z]{4}/i;

const spelt = remembered((text: string): string => {
  if (!anyFixed.test(text)) return text;
  const named = formulas
    .reduce((so, [formula, name]) => so.replace(formula, name), text)
    .replace(ions, (_, ahead: string | undefined, behind: string | undefined) => symbols[ahead ?? behind!]!);
  return named.replace(
    salts,
    (_, metal: string, short: string | undefined, acid: string | undefined) =>
      `${metals[metal.toLowerCase()]} ${acid ?? acids[short!.toLowerCase()]}`,
  );
}, mostSentences);

/** A word right before an amount of a drug, or the first of the text. */
const amountBehind = ":? \\d[\\d.,]* ?(?:m?g|mcg|micrograms?|nanograms?|(?:million )?units?|mmol|mEq)\\b";
const candidates = new RegExp(`^[A-Za-z]{3,}\\b|\\b[A-Za-z]{3,}(?=${amountBehind})`, "g");
const isBesideAmount = new RegExp(`^${amountBehind}`);
interface Candidate {
  word: string;
  at: number;
  isBesideAmount: boolean;
}

const candidatesIn = remembered(
  (text: string): readonly Candidate[] =>
    [...text.matchAll(candidates)]
      .map(({ 0: word, index: at }) => ({
        word,
        at,
        isBesideAmount: isBesideAmount.test(text.slice(at + word.length)),
      }))
      .filter(({ word }) => !isOfPreparation(word.toLowerCase())),
  mostSentences,
);

/** Shorter beginnings are words of their own too often. */
const shortestOwn = 4;
const shortestOther = 5;

/** Words that are met in print and begin the names of drugs. */
const ordinary: ReadonlySet<string> = new Set(
  "amino calcium dose para meta plasma prime potassium sodium step total".split(" "),
);

/**
 * The text with short names of drugs in full.
 * @param onlyClear where the short name may be another drug's as well it stays as it is
 */
export function namesInFull(text: string, recipe: Recipe, lookup: Lookup, onlyClear = false): string {
  const fixed = spelt(text);
  const found = candidatesIn(fixed);
  if (found.length === 0) return fixed;
  const { drugs, fluids } = ownWords(recipe, lookup);
  let full = "";
  let end = 0;
  for (const { word, at, isBesideAmount } of found) {
    const small = word.toLowerCase();
    if (drugs.has(small) || fluids.has(small)) continue;
    const { own, isClear, other } = fullNames(small, recipe, lookup);
    const ofOther = isBesideAmount && !onlyClear ? other : undefined;
    const name = own === undefined ? ofOther : isClear || !onlyClear ? own : undefined;
    if (name === undefined) continue;
    full += fixed.slice(end, at) + name;
    end = at + word.length;
  }
  return full + fixed.slice(end);
}

interface FullNames {
  /** A word of an ordered drug's name. */
  own?: string | undefined;
  /** It begins no other name that the library or wards know. */
  isClear?: boolean;
  other?: string | undefined;
}

function fullNames(short: string, recipe: Recipe, lookup: Lookup): FullNames {
  const known = Object.hasOwn(customary, short) ? customary[short]! : [];
  if (known.length === 0 && (short.length < shortestOwn || ordinary.has(short) || looksLikeDrug(short))) return {};
  const isMeant = (word: string) =>
    known.length > 0 ? known.includes(word) : word.length > short.length && word.startsWith(short) && !isSaltWord(word);
  const own = orderedDrugs(recipe)
    .flatMap((drug) => namesOf("drug", drug, lookup).flatMap(wordsOf))
    .find(isMeant);
  const others = drugWords(lookup.names("drug")).filter((word) => isMeant(word) && word !== own);
  const isClear = others.length === 0 && known.length < 2;
  return { own, isClear, other: known[0] ?? (short.length >= shortestOther ? others[0] : undefined) };
}

/** The list of a library's names is one object as long as they stay the same. */
const drugWords = keptWith((names: readonly string[]): readonly string[] => [
  ...new Set(names.flatMap((name) => name.split("-")).filter((word) => word.length > shortestOther)),
]);
