/**
 * Words of the trade for what a block calls otherwise, or says in another place. They stand before words of near spelling and before
 * other blocks that know the word. Which word means which: common practice of monographs and worksheets, from memory.
 */
import type { Problem } from "../../model/facts.ts";
import { word } from "../problems.ts";

/** By block and its own word: words whose line goes on as it is. */
const sameFact: Readonly<Record<string, Readonly<Record<string, readonly string[]>>>> = {
  drug: { formula: ["molecular-formula"], name: ["generic-name"] },
  fluid: { contains: ["composition"], use: ["purpose"] },
  stock: {
    fill: ["nominal-volume", "size", "volume"],
    strength: ["concentration"],
    displacement: ["displacement-value", "displacement-volume"],
    gtin: ["barcode", "pack-code"],
    "made-of": ["material"],
    "looks-like": ["look-alike"],
    storage: ["keep", "store", "stored"],
  },
  order: {
    dose: ["amount"],
    diluent: ["base", "base-fluid", "fluid", "solvent", "vehicle"],
    "infuse-over": ["duration", "give-over", "infusion-time", "over", "time"],
    "infuse-at": ["flow-rate", "infusion-rate", "rate"],
    weight: ["body-weight", "bodyweight", "patient-weight"],
    "body-surface": ["body-surface-area", "bsa"],
    access: ["line", "vein"],
    population: ["patient", "patients"],
  },
  preparation: {
    concentration: ["strength"],
    volume: ["final-volume", "total-volume"],
    form: ["dosage-form", "pharmaceutical-form"],
    appearance: ["colour", "description", "looks"],
    store: ["keep", "storage"],
  },
  device: { capacity: ["size", "volume"], graduation: ["division", "scale"], pore: ["pore-size"] },
  intermediate: { at: ["concentration", "strength"], in: ["container"] },
  recipe: { title: ["heading", "name"], note: ["comment", "description", "remark"] },
  site: { cabinet: ["hood", "workstation"], name: ["hospital", "institution", "pharmacy"] },
};

const routes =
  "By which routes a product may be given stands in its `stock`; one that would be fatal or is forbidden is `never` with the route, and `concentration` and `rate` may be limited `for route`.";
const fluids =
  "A fluid that it may be mixed with is `compatible` with the fluid's name, one that it must not be mixed with is `incompatible`.";
const kept =
  "How long it keeps once it is diluted is a block: `stable { … }`, with `in`, `at`, `concentration` and `for`.";
const lightOfDrug =
  "Whether light spoils it is a fact of its drug: write `light protect-always`, `light protect-stock-only` or `light not-sensitive` there.";
const light = "Write `light protect-always`, `light protect-stock-only` or `light not-sensitive`.";
const hazard = "Write `hazard hazardous`; of any other drug, `hazard not-hazardous`.";
const doseLimits = "Limits of a dose are `dose` with `from` and `up to`.";
const strengthLimits =
  "Limits of strength are `concentration` with `from` and `up to`, and `for any route` or `for route` with the route.";
const rateLimits = "Limits of giving are `rate` with `from` and `up to`.";
const shelf =
  "Lots and their expiry stand in a declaration of their own: `lots NAME { … }`, or in the inventory's CSV.";
const powder = "Of a powder write `container powder-vial`, `content`, and how it is dissolved in `reconstitute { … }`.";
const dissolving =
  "How a powder is dissolved is a block: `reconstitute { … }`, with `with`, `gives` and `withdrawable`.";
const useWithin =
  "Write `use-within` with the time, `at` and the place, such as `use-within 24 h at room-temperature`.";
const volumes = "Write `diluent-volume` for what it is added to, or `final-volume` for all of it.";
const often =
  "How often it is given is not part of one container. Write the dose that this one holds, and the rest in a `note`.";
const maximum = "The cap is `maximum dose` with its figure.";
const byDemand =
  "What a patient or a ward takes single doses from is `use titrated`; single dose and lock-out time are set at the pump: write them as a `note` of the recipe.";
const saidInNote =
  "An order has no line for it. Write it as a `note` of the recipe, which is printed and not computed with.";
const together = "One drug more is `additive` with its name and amount.";
const many = "How many are made is `makes`, such as `makes 10 x bag`.";
const salt = "The salt that is meant stands behind the drug: `drug`, its name, `as` and the salt.";

/** What is said in another form altogether, by block and word. */
const otherForm: Readonly<Record<string, Readonly<Record<string, string>>>> = {
  drug: {
    ...each(["route", "routes"], routes),
    ...each(["diluent", "diluents", "fluid", "fluids", "solvent", "vehicle"], fluids),
    ...each(["expiry", "in-use", "keep", "shelf-life", "stability", "storage", "store", "use-within"], kept),
    ...each(["light-protection", "light-sensitive", "photosensitive", "protect", "protect-from-light"], light),
    ...each(["cytotoxic", "hazardous"], hazard),
    ...each(["max-dose", "maximum", "maximum-dose", "minimum"], doseLimits),
    ...each(
      ["max-concentration", "maximum-concentration", "min-concentration", "minimum-concentration"],
      strengthLimits,
    ),
    ...each(["infuse-at", "infuse-over", "max-rate", "maximum-rate"], rateLimits),
    ...each(["molar-mass", "molecular-weight"], "The molar mass is computed from `formula`."),
    ...each(
      ["charge", "valence", "valency"],
      "The charge stands with its ion: `ion`, its name, `charge` and the number.",
    ),
  },
  stock: {
    ...each(["batch", "expires", "expiry", "lot", "lots"], shelf),
    ...each(
      ["light", "light-protection", "light-sensitive", "photosensitive", "protect", "protect-from-light"],
      lightOfDrug,
    ),
    ...each(["lyophilised", "lyophilized", "powder"], powder),
    ...each(["diluent", "gives", "reconstituted", "reconstitution", "solvent", "with", "withdrawable"], dissolving),
    ...each(["multi-dose", "multiple-dose", "single-dose"], "Write `doses single`, `doses multiple` or `doses bulk`."),
    ...each(["after-opening", "use-within"], "How long it may be used once opened is `in-use`, with its source."),
  },
  order: {
    volume: volumes,
    ...each(["frequency", "interval", "schedule"], often),
    ...each(["cap", "max", "max-dose", "maximum-dose"], maximum),
    ...each(["min", "min-dose", "minimum-dose"], "The floor is `minimum dose` with its figure."),
    ...each(["bolus-dose", "bolus", "demand-dose", "lockout", "lock-out", "pca"], byDemand),
    ...each(["contact-time", "dwell", "dwell-time", "indication", "instructions", "temperature"], saidInNote),
    ...each(["additives", "drugs"], together),
    ...each(["bags", "batch", "number", "quantity"], many),
    salt,
  },
  preparation: {
    ...each(["beyond-use", "bud", "discard-after", "expires", "expiry", "shelf-life", "stability"], useWithin),
  },
};

function each(words: readonly string[], text: string): Record<string, string> {
  return Object.fromEntries(words.map((word) => [word, text]));
}

export interface MeantFact {
  /** The word to be put in this one's place; undefined where it is said in another form. */
  word?: string;
  /** A sentence that says what to write. */
  text: string;
}

/** What an author means by a word that its block does not know; undefined where no row says. */
export function meantFact(problem: Problem): MeantFact | undefined {
  return meantFactIn(word(problem, "inside"), word(problem, "word").toLowerCase());
}

/** @param plain in small letters */
export function meantFactIn(inside: string, plain: string): MeantFact | undefined {
  for (const [own, words] of Object.entries(sameFact[inside] ?? {}))
    if (words.includes(plain)) return { word: own, text: `Write \`${own}\`.` };
  const rows = otherForm[inside] ?? {};
  return Object.hasOwn(rows, plain) ? { text: rows[plain]! } : undefined;
}

/** For tests: every row, as block, word of the trade, and the block's own word where there is one. */
export const factRows: readonly (readonly [block: string, word: string, own: string | undefined])[] = [
  ...Object.entries(sameFact).flatMap(([block, rows]) =>
    Object.entries(rows).flatMap(([own, words]) => words.map((word) => [block, word, own] as const)),
  ),
  ...Object.entries(otherForm).flatMap(([block, rows]) =>
    Object.keys(rows).map((word) => [block, word, undefined] as const),
  ),
];
