/**
 * Faults that no check tells, and why they hurt nobody. A rule looks at the fault alone; whether two stocks come to the same is
 * asked of the bench. What no rule covers counts as missed.
 */
import { compareQuantities, measure } from "../../language/quantities/quantity.ts";
import type { Mutant } from "./mutants.ts";

export type Harmless = string | undefined;

/** What the library is asked, with the fault in it, where the fault alone does not show it. */
export interface Asked {
  /** Whether the finished containers hold the same. */
  sameOutcome(): boolean;
  /** Whether nothing that reaches the finished container is preserved. */
  unpreserved(): boolean;
}

export function harmless(mutant: Mutant, original: string, asked: Asked): Harmless {
  const { sameOutcome } = asked;
  switch (mutant.kind) {
    case "unit swapped":
      return equalQuantity(mutant) ?? shorterLimit(mutant) ?? monovalent(mutant, sameOutcome) ?? stepOfRange(mutant);
    case "figure divided by 10":
    case "figure divided by 1000":
      return shorterLimit(mutant) ?? stepOfRange(mutant);
    case "figure times 10":
    case "figure times 1000":
      return oftener(mutant) ?? stepOfRange(mutant);
    case "fact deleted":
      return derivedAnyway(mutant, original) ?? forWhom(mutant, asked);
    case "step deleted":
      return checkBetween(mutant, original) ?? sameProductMixed(mutant, original) ?? plainUntilMixed(mutant, original);
    case "steps swapped":
      return (
        independent(mutant, original) ??
        freeOrder(mutant) ??
        oneProductSwapped(mutant, original, sameOutcome) ??
        plainUntilMixed(mutant, original)
      );
    case "stock swapped":
      return sameOutcome() ? "Another size of the same product: the finished container holds the same." : undefined;
    default:
      return undefined;
  }
}

function equalQuantity({ words, what }: Mutant): Harmless {
  const [was = "", now = ""] = what.split(" → ");
  const figure = words.match(new RegExp(`([\\d.]+) ${was.replace("/", "\\/")}(?![\\w/])`))?.[1];
  if (!figure) return undefined;
  try {
    const [a, b] = [measure(`${figure} ${was}`), measure(`${figure} ${now}`)];
    if (a.unit.dimension !== b.unit.dimension || compareQuantities(a, b) !== 0) return undefined;
    return "The same quantity in another unit.";
  } catch {
    return undefined;
  }
}

function shorterLimit({ words, kind, what }: Mutant): Harmless {
  const shorter = kind.startsWith("figure divided") || what === "h → min" || what === "days → h";
  return words.startsWith("use-within") && shorter ? "A shorter limit of use wastes, and harms nobody." : undefined;
}

function monovalent({ words, what }: Mutant, sameOutcome: () => boolean): Harmless {
  const ions = what === "mmol → mEq" || what === "mEq → mmol" || what === "mmol/L → mEq/L" || what === "mEq/L → mmol/L";
  if (!ions || /magnesium|calcium|phosphate/.test(words)) return undefined;
  return sameOutcome() ? "An ion of one charge: a millimole is a milliequivalent." : undefined;
}

/** The step of a range, in its figure or its unit, where both ends stay as they were. */
function stepOfRange({ words, text, line }: Mutant): Harmless {
  const ends = (written: string) => /^.* in steps of /.exec(written)?.[0];
  const now = text.split("\n")[line - 1]?.trim() ?? "";
  if (ends(words) === undefined || ends(words) !== ends(now)) return undefined;
  return "Finer or coarser steps of the range; every check still stands for the whole of it.";
}

function forWhom({ words }: Mutant, { unpreserved }: Asked): Harmless {
  if (!words.startsWith("population") || !unpreserved()) return undefined;
  return "Nothing in the container is preserved, and no other fact of the library depends on for whom it is.";
}

function oftener({ words, what }: Mutant): Harmless {
  return words.startsWith("mix ") && what === "5 → 50" ? "Mixed more often than need be." : undefined;
}

const derived = /^(concentration|nominal-concentration|volume)\s/;

function derivedAnyway({ words, text }: Mutant, original: string): Harmless {
  if (derived.test(words) && !/^ +dose .*concentration/m.test(text)) {
    const inPreparation = original.indexOf(words) > original.indexOf("  preparation");
    if (inPreparation) return "A second statement of a figure that is derived, shown and printed all the same.";
  }
  if (/^use-within\s/.test(words) && /^ +use-within/m.test(text))
    return "One storage place fewer in which it may be kept.";
  if (/^use\s+(infusion|bolus)/.test(words) && /^ +infuse-(over|at)/m.test(text)) {
    return "How it is used follows from the time that it is given over.";
  }
  if (/^final-volume\s/.test(words) && /^ {2}intermediate /m.test(text) && /^ {4}concentration\s/m.test(text)) {
    return "The volume follows from the dose and the strength, and both are stated and checked.";
  }
  if (/^(method|final-volume)\s/.test(words) && !/^ +diluent\s/m.test(text)) {
    return "Nothing is diluted: the volume follows from the dose, and the concentration is stated and checked.";
  }
  return undefined;
}

/** A check in the middle of the work where the drawn drug stays to be seen. */
function checkBetween({ words, text }: Mutant, original: string): Harmless {
  if (!words.startsWith("check by")) return undefined;
  const more = text.includes("    check by ");
  return more && original !== text
    ? "Another check follows, and what it looks at (the drawn syringe, or a drug that is not high-alert) is still to be seen."
    : undefined;
}

function sameProductMixed({ words, text }: Mutant, original: string): Harmless {
  return words.startsWith("mix ") && text !== original && holdsOneProduct(original) ? oneProduct : undefined;
}

const oneProduct = "Only one product is in the container.";

/** Portions of one product, and their mixing, in another order. */
function oneProductSwapped({ words }: Mutant, original: string, sameOutcome: () => boolean): Harmless {
  const filling = words.split(" ⇄ ").every((step) => /^(pass|mix|inspect|seal)\b/.test(step));
  return filling && holdsOneProduct(original) && sameOutcome() ? oneProduct : undefined;
}

function holdsOneProduct(original: string): boolean {
  const stocks = [...original.matchAll(/^ {4}\S+\s+(?:\d+ x )?(\S+-(?:bottle|vial|bag|ampoule)[\w-]*)/gm)].map(
    (m) => m[1]!,
  );
  return stocks.filter((stock) => !stock.startsWith("empty-")).length === 1;
}

/** A mixing left out between plain fluids: what is injected before and behind it was drawn from them, and it is mixed in the end. */
function plainUntilMixed({ words }: Mutant, original: string): Harmless {
  const mixing = words.split(" ⇄ ").find((step) => step.startsWith("mix "));
  const container = mixing?.split(" ")[1];
  if (mixing === undefined || container === undefined) return undefined;
  const steps = original
    .slice(original.indexOf("  steps {"))
    .split("\n")
    .map((line) => line.trim());
  const at = steps.indexOf(mixing);
  const isInto = (step: string) => step.startsWith("inject ") && step.endsWith(` into ${container}`);
  const before = steps.slice(0, at).findLast(isInto);
  const behind = steps.slice(at).find(isInto);
  const isPlain = (step: string | undefined) => {
    const drawn = steps.find(
      (each) => step !== undefined && each.includes(` into ${step.split(" ")[1]}`) && each.startsWith("draw "),
    );
    const from = drawn && / from (\S+)/.exec(drawn)?.[1];
    return from !== undefined && new RegExp(`^ {4}${from} +(?:saline|glucose|water)-`, "m").test(original);
  };
  const isMixed =
    behind !== undefined && steps.slice(steps.indexOf(behind)).some((s) => s.startsWith(`mix ${container} `));
  return isPlain(before) && isPlain(behind) && isMixed
    ? "Plain diluent on plain diluent: one mixing in the end serves for both."
    : undefined;
}

/** The two steps name nothing in common. */
function independent({ words }: Mutant, original: string): Harmless {
  const names = new Set([...original.matchAll(/^ {4}([a-z][\w.-]*) {2,}\S/gm)].map((m) => m[1]!));
  const [one = "", other = ""] = words.split(" ⇄ ").map((s) => s.replace(/ {2}=.*$| {2}giving.*$/, ""));
  const things = (step: string) => step.split(/[\s,]+/).filter((w) => names.has(w));
  const shared = things(one).filter((name) => things(other).includes(name));
  const draws = [one, other].every((s) => /^(draw|inject|make|reconstitute|transfer|pass|withdraw|add)\b/.test(s));
  return shared.length === 0 && !draws ? "The two steps touch different things, or a person only looks on." : undefined;
}

/** Pairs on one thing of which no published rule and no harm fixes the order. */
const free: readonly [RegExp, RegExp, string][] = [
  [
    /^(inspect|seal|label|protect|keep|replace|attach|remove)\b/,
    /^(inspect|seal|label|protect|keep|replace|attach|remove)\b/,
    "Finishing touches on a finished container, all before the last check.",
  ],
  [
    /^check (label|expiry)/,
    /^(disinfect|tap|attach)\b/,
    "The label is still read before the container is opened or entered.",
  ],
  [/^tap\b/, /^disinfect\b/, "Both before the ampoule is opened."],
  [
    /^(expel|swirl|mix|disinfect)\b/,
    /^(replace|attach|remove|connect)\b/,
    "What is on the syringe changes nothing for this step.",
  ],
  [/^expel\b/, /^(mix|inspect)\b/, "Air leaves the finished syringe before the last check either way."],
  [/^label\b/, /^(connect|remove)\b/, "Labelled before anything is drawn from it."],
  [/^disinfect\b/, /^disinfect\b/, "What is entered next is wiped all the same; a port not wiped is told."],
];

function freeOrder({ words }: Mutant): Harmless {
  const [one = "", other = ""] = words.split(" ⇄ ");
  for (const [a, b, reason] of free) {
    if ((a.test(one) && b.test(other)) || (a.test(other) && b.test(one))) return reason;
  }
  return undefined;
}
