/** Words that name a medicine by their form, in a library or not: where one stands beside an amount, it is read as the drug that is in there. */

/**
 * Endings by which names are made, from "The use of stems in the selection of International Nonproprietary Names (INN) for pharmaceutical
 * substances" (World Health Organization, 2018). Left out are stems with which ordinary words end too: -ase (increase), -one, -ol.
 */
const stems: readonly string[] = (
  "abine acetam actide adol afenone afil alol antrone anserin arone azam azenil azepam azolam azosin azole bactam bamate " +
  "caine cainide cidin ciguat cillin coxib crinat cromil curium onium dapsone domide dopa dronic dronate fentanil fermin " +
  "fiban fibrate flurane formin fosfamide fungin gatran gepant gliflozin gliptin irudin kacin kinase kinra leukin limus " +
  "lukast mab mectin metacin metasone methasone micin monam mycin olol oxacin oxicam pamil parib parin parinux penem " +
  "peridol peridone perone pidem pirone planin plase platin poetin poride prazan pressin pril prilat oprim pristin profen " +
  "prost prostadil racetam racil relix renone rinone rubicin sartan semide setron siban siran statin stigmine stim sulfan " +
  "tanide taxel tecan tepa terol terone tiazem thiazide tide tinib tizide tocin toin trexate trexed tricin triptan troban " +
  "uracil vaptan vir xaban zolid zomib prednisolone prednisone"
).split(" ");

/** A stem needs something in front of it. */
const shortestName = 7;

/** -ine names alkaloids and organic bases (same source); so short a word may be any. */
const shortestBase = 8;
/** Endings in -ine that are no drug's: `baseline`, `certaine`, `allgemeine`; what of them is one. */
const ordinaryEnding = /(?:line|aine|eine)$/;
const butBases =
  /(?:(?:adren|pren|tr|but)aline|ylline|ptyline|cycline|giline|nicline|tiline|azoline|caine|caffeine|cysteine|codeine)$/;

/** Words of print that end like names. Amino acids and creatinine are what a product holds, or what is measured. */
const ordinary: ReadonlySet<string> = new Set(
  (
    "ammonium zirconium meconium plutonium chaperone mongrel peptide polypeptide dipeptide glycopeptide nucleotide oligonucleotide " +
    "cholesterol amide polyamide carbamide nicotinamide myostatin medicine biomedicine telemedicine determine predetermine examine " +
    "reexamine combine recombine redefine define discipline doctrine endocrine exocrine paracrine feminine masculine imagine " +
    "intestine intrauterine magazine limousine migraine quarantine pristine clandestine gelatine glycerine margarine creatinine " +
    "creatine histidine methionine tyrosine threonine isoleucine phenylalanine asparagine chlorine fluorine submarine ultrafine " +
    "immagine subroutine undermine intertwine sunshine routine machine turpentine nectarine tangerine cytokine"
  ).split(" "),
);

/** Names that bear none of these stems: from the WHO Model List of Essential Medicines (2021), and from memory of other injectable medicines. */
const names: ReadonlySet<string> = new Set(
  (
    "abciximab acetaminophen acetazolamide acetylcysteine albumin albuterol allopurinol amphotericin aprepitant argipressin artesunate " +
    "ascorbic asparaginase aztreonam calcitriol cangrelor chloramphenicol ciclosporin codeine colistimethate colistin cyanocobalamin " +
    "cyclosporin dalbavancin dantrolene dexrazoxane dextran diclofenac digitoxin digoxin epinephrine epoprostenol eribulin estradiol " +
    "etomidate etoposide fentanyl flumazenil folinate folinic fosaprepitant foscarnet fosfomycin fosphenytoin glucagon glyceryl " +
    "glycopyrrolate hydrocortisone hydromorphone hydroxocobalamin immunoglobulin insulin interferon isosorbide ixabepilone ketorolac " +
    "lacosamide leucovorin levofolinate levosimendan mannitol melphalan metaraminol mesna methadone metoclopramide mitoxantrone mycophenolate " +
    "naloxone naltrexone nitroglycerin norepinephrine oritavancin oxycodone paracetamol parecoxib pegaspargase pentobarbital " +
    "phenobarbital phenobarbitone phytomenadione phytonadione procainamide propofol quinine rasburicase rifampicin rifampin salbutamol " +
    "streptozocin sugammadex tazobactam teniposide thiopental thiopentone tranexamic treprostinil valproate ziprasidone"
  ).split(" "),
);

/** Prefixes that are stems (same source), with as much behind them as makes a name. */
const prefixes = /^(?:cef|gado)[a-z]{4,}$/;
/** Older spellings of the same stems (British Approved Names, from memory). */
const olderSpellings = /(?:phosphamide|phylline|mezole)$|^ceph(?:alex|alor|aloth|azol|rad)[a-z]+$/;

/** @param word in small letters */
export function looksLikeDrug(word: string): boolean {
  if (names.has(word)) return true;
  if (word.length < shortestName || ordinary.has(word)) return false;
  if (prefixes.test(word) || olderSpellings.test(word)) return true;
  if (stems.some((stem) => word.endsWith(stem) && word.length > stem.length)) return true;
  if (word.length < shortestBase || !word.endsWith("ine")) return false;
  return !ordinaryEnding.test(word) || butBases.test(word);
}

/** Metals whose salts are added to infusions; before the name of an acid they make a drug of their own. */
const metals: ReadonlySet<string> = new Set(
  "potassium sodium calcium magnesium manganese zinc copper ammonium lithium iron ferrous ferric".split(" "),
);

export function isMetal(word: string): boolean {
  return metals.has(word);
}
