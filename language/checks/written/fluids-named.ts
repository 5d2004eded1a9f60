/** Fluids that a printed line names without their percentage, or by the short names of wards: `in glucose`, `in D5W`, `in Hartmann's solution`. */
import type { Fluid, Recipe } from "../../model/declaration.ts";
import { keptWith } from "../../model/kept-with.ts";
import type { Lookup } from "../../model/lookup.ts";
import { Exact } from "../../quantities/exact.ts";
import { mostSentences, remembered } from "../../quantities/remembered.ts";
import { besides } from "./label-substances.ts";
import { percentsIn } from "./percents-in-text.ts";
import { assertions, type Contradiction, fluidsOf, undilutedBy } from "./words-against-order.ts";

/** What fluids are called after. */
interface Kind {
  name: string;
  /** Undefined where it is not said. */
  percent: string | undefined;
}

const glucose = "glucose";
const saline = "sodium chloride";
const lactated = "Ringer's lactate";
const water = "water for injection";

/** The first that is met is meant. */
const spoken: readonly [RegExp, (match: RegExpExecArray) => Kind][] = [
  [/\bD(5|10|20|50)W?\b/, ([, percent]) => ({ name: glucose, percent })],
  [/\b(?:glucose|dextrose)\b/i, () => ({ name: glucose, percent: undefined })],
  [/\bhalf[- ](?:normal|strength) saline\b/i, () => ({ name: saline, percent: "0.45" })],
  [/\b(?:normal|physiological) saline\b|\bNS\b/i, () => ({ name: saline, percent: "0.9" })],
  [
    /\bHartmann['’]?s?\b|\bRinger['’]?s?[- ]lactate\b|\blactated Ringer['’]?s?\b|\bcompound sodium lactate\b/i,
    () => ({ name: lactated, percent: undefined }),
  ],
  [/\bRinger['’]?s?\b/i, () => ({ name: "Ringer's solution", percent: undefined })],
  [
    /\bbalanced (?:salt|electrolyte|crystalloid)\b|\bplasma substitute\b/i,
    () => ({ name: "balanced salt solution", percent: undefined }),
  ],
  [/\bmannitol\b/i, () => ({ name: "mannitol", percent: undefined })],
  [/\bdextran\b/i, () => ({ name: "dextran", percent: undefined })],
  [/\b(?:saline|sodium chloride)\b/i, () => ({ name: saline, percent: undefined })],
  [/\bwater for injections?\b|\bsterile water\b|\bWFI\b/i, () => ({ name: water, percent: undefined })],
];

/** `in a bag of 100 mL of`, and what stands there up to the next mark. */
const isIn =
  /\b(?:in|into|diluent:?|vehicle:?|(?:diluted|made up) (?:in|with))\s+(?:an? |the )?(?:bag of )?(?:\d[\d.,]* ?m?L(?: bag)?(?: of)? )?(?:\d[\d.]* ?% (?:w\/v )?)?([^,;:.()\d][^,;:()]*)/i;

function kindsIn(text: string): Kind[] {
  let rest = text;
  return spoken.flatMap(([pattern, kind]) => {
    const match = pattern.exec(rest);
    if (!match) return [];
    // The saline of `half-normal saline` is no other one.
    rest = rest.split(pattern).join(" ");
    return [kind(match)];
  });
}

/** The stretch without the names of fluids, however wards call them: of `NS` and `normal saline` nothing is left. */
export const withoutFluids = remembered(
  (stretch: string): string => spoken.reduce((rest, [pattern]) => rest.replace(pattern, " "), stretch),
  mostSentences,
);

/** The kind that stands at the beginning of a stretch. */
function kindFirst(stretch: string): { said: string; kind: Kind } | undefined {
  for (const [pattern, kind] of spoken) {
    const match = pattern.exec(stretch);
    if (match?.index === 0) return { said: match[0], kind: kind(match) };
  }
  return undefined;
}

/** Each with its percentage; nothing where its name tells none of these kinds. */
const kindsOf = keptWith(({ name, facts }: Fluid): readonly Kind[] => {
  const printed = facts.one("name")?.slots.text.text ?? "";
  const kinds = kindsIn(`${printed} ${name.name.replaceAll("-", " ")}`);
  return kinds.map((kind) => ({
    ...kind,
    percent: percentsIn(printed).find(({ words }) => words.some((word) => kind.name.includes(word)))?.percent,
  }));
});

/** Undefined where one of the fluids is of none of these kinds. */
function kindsOfAll(fluids: readonly string[], lookup: Lookup): Kind[] | undefined {
  const kinds = fluids.map((name) => {
    const fluid = lookup.find("fluid", name);
    return fluid ? kindsOf(fluid) : [];
  });
  return kinds.some((each) => each.length === 0) ? undefined : kinds.flat();
}

function isSame(one: Kind, other: Kind): boolean {
  if (one.name !== other.name) return false;
  return (
    one.percent === undefined || other.percent === undefined || Exact.of(one.percent).equals(Exact.of(other.percent))
  );
}

const used = /\b(?:use|dilute (?:in|with))\s+(?:only )?(?:\d[\d.]* ?% (?:w\/v )?)?([^,;:.()\d][^,;:()]*)/i;

/** `Use sodium chloride 0.9 % only`: with `only` it is no flush or other liquid that is spoken of. */
function onlyUsed(sentence: string): RegExpExecArray | null {
  return /\bonly\b/i.test(sentence) ? used.exec(sentence) : null;
}

/** `May be diluted in glucose 5 %` speaks of what could be done. */
const isAllowed = /\b(?:may|can|could|alternative(?:ly)?)\b/i;

export function fluidNameContradicted(text: string, recipe: Recipe, lookup: Lookup): Contradiction | undefined {
  const fluids = fluidsOf(recipe, lookup);
  const own = kindsOfAll(fluids, lookup);
  const ordered = fluids.length === 0 ? undilutedBy(recipe, lookup) : fluids.join(" and ");
  if (!own || ordered === undefined) return undefined;
  for (const sentence of assertions(text)) {
    // What is said to be diluted, and is not, is told as that (label-claims.ts).
    if (fluids.length === 0 && /\b(?:diluted|made up)\b/i.test(sentence)) continue;
    if (isAllowed.test(sentence)) continue;
    const [whole = "", stretch] = isIn.exec(sentence) ?? onlyUsed(sentence) ?? [];
    if (stretch === undefined || besides.test(sentence.replace(whole, ""))) continue;
    const found = kindFirst(stretch);
    if (
      found &&
      !own.some((each) => isSame(each, found.kind)) &&
      !kindsIn(stretch).some((kind) => own.some((each) => isSame(each, kind)))
    )
      return { said: found.said, ordered, whole: "recipe" };
  }
  return undefined;
}

/** Whether a name stands for what the order is diluted in. */
export function isDiluent(name: string, recipe: Recipe, lookup: Lookup): boolean {
  const diluents = (recipe.order?.all("diluent") ?? []).map(({ slots }) => slots.fluid.name);
  const own = kindsOfAll(diluents, lookup) ?? [];
  const [percent] = percentsIn(name);
  const said = kindFirst(name.replace(/^\d[\d.]* ?% (?:w\/v )?/, "").trim())?.kind;
  return said !== undefined && own.some((each) => isSame(each, { ...said, percent: percent?.percent ?? said.percent }));
}
