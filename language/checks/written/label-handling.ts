/** What a line of the label tells the ward to do with it, laid against the monograph and the order: shaking, flushing, filtering. */
import { orderedDrugs } from "../../bench/stray-drugs.ts";
import type { Recipe } from "../../model/declaration.ts";
import type { Lookup } from "../../model/lookup.ts";
import type { MeasureSlot } from "../../model/slots.ts";
import { Exact } from "../../quantities/exact.ts";
import { inBase } from "../../quantities/quantity.ts";
import { findUnit } from "../../quantities/unit.ts";
import { isSterilising, particlesOf } from "../stability/natures.ts";
import { isEndOfRange } from "./bare-figures.ts";
import { figuresIn } from "./figures-in-text.ts";
import { assertions, type Contradiction, namesOf, wordsOf } from "./words-against-order.ts";

const micrometre = findUnit("micrometre").unit!;
/** 0.2 and 0.22 micrometre name one filter (trade practice). */
const sameFilter = Exact.of("1.2");

const shakes = /\bshak(?:e|en|ing)\b(?: (?:well|gently|vigorously))?/i;

const shakesNot = /\b(?:not|never|no|avoid|without|don't|instead|than)\b/i;

/** `Shake well` on what must not be shaken. */
export function shakingContradicted(text: string, recipe: Recipe, lookup: Lookup): Contradiction | undefined {
  if (!shakes.test(text)) return undefined;
  // `Shake well before use` speaks of nothing else.
  const said = text.split(/[.;!]/).flatMap((part) => (shakesNot.test(part) ? [] : (shakes.exec(part)?.[0] ?? [])))[0];
  const drug = orderedDrugs(recipe).find(
    (name) => lookup.find("drug", name)?.facts.one("mixing")?.slots.how.choice === "not-shaken",
  );
  return said === undefined || drug === undefined
    ? undefined
    : { said: said.toLowerCase(), ordered: "not-shaken", whole: `monograph of ${drug}` };
}

const puts =
  /\b(flush\w*|rins\w*|prim\w*|dilut\w*|reconstitut\w*|dissolv\w*|mix\w*|giv\w+|run|infus\w+)\b[^.;]*?\b(?:with|in) ([a-z][^,;.]*)/i;

/** `Flush with sodium chloride 0.9 %` beside a drug that must not meet it. */
export function fluidForbidden(text: string, recipe: Recipe, lookup: Lookup): Contradiction | undefined {
  for (const sentence of assertions(text)) {
    const [, put, phrase] = puts.exec(sentence) ?? [];
    if (put === undefined || phrase === undefined || /\bincompatib/i.test(sentence)) continue;
    const words = new Set(wordsOf(phrase));
    for (const name of orderedDrugs(recipe)) {
      for (const { slots } of lookup.find("drug", name)?.facts.all("incompatible") ?? []) {
        const fluid = slots.what.name;
        if (!lookup.find("fluid", fluid)) continue;
        const named = namesOf("fluid", fluid, lookup)
          .map((each) => wordsOf(each).filter((word) => /^[a-z]{3}/.test(word)))
          .find((own) => own.length > 0 && own.every((word) => words.has(word)));
        if (!named) continue;
        const said = `${put.toLowerCase()} with ${named.join(" ")}`;
        return { said, ordered: `incompatible ${fluid}`, whole: `monograph of ${name}` };
      }
    }
  }
  return undefined;
}

/** A filter through which a printed line may not send it. */
interface Pores {
  isRight(said: Exact): boolean;
  says: string;
  whole?: string;
}

/** The filter of the ward, and not the one at the bench. */
const isOfGiving = /\b(?:giv(?:e|en|ing)|infus\w*|administ\w*|in-?line|set|run)\b/i;

/**
 * `Through a filter of 5 micrometre` where the order says 0.2 micrometre, one of 0.2 micrometre for an emulsion, and another than the bench
 * uses.
 */
export function filterContradicted(text: string, recipe: Recipe, lookup: Lookup): Contradiction | undefined {
  if (!/\bfilter/i.test(text)) return undefined;
  const ordered = orderedPores(recipe);
  const rules = [...ordered, ...monographPores(recipe, lookup)];
  const used = usedPores(recipe, lookup);
  for (const sentence of assertions(text)) {
    if (!/\bfilter/i.test(sentence)) continue;
    const bench = isOfGiving.test(sentence) ? undefined : used;
    for (const figure of figuresIn(sentence)) {
      if (figure.quantity.unit.dimension !== micrometre.dimension || isEndOfRange(figure)) continue;
      const said = inBase(figure.quantity);
      if (bench?.isRight(said)) continue;
      const broken = rules.find((rule) => !rule.isRight(said)) ?? (ordered.length === 0 ? bench : undefined);
      if (broken) {
        const { says, whole } = broken;
        return { said: figure.written, ordered: says, ...(whole ? { whole } : {}) };
      }
    }
  }
  return undefined;
}

function orderedPores({ order }: Recipe): Pores[] {
  const pores = oneOf(
    (order?.all("in-line-filter") ?? []).map(({ slots }) => slots.pore),
    "in-line-filter ",
  );
  return pores ? [pores] : [];
}

/** The filters among the materials. */
function usedPores({ materials }: Recipe, lookup: Lookup): Pores | undefined {
  const devices = materials.flatMap(({ item }) => lookup.find("device", item.name) ?? []);
  const pores = oneOf(
    devices.flatMap(({ facts }) => facts.one("pore")?.slots.pore ?? []),
    "a filter of ",
  );
  return pores && { ...pores, whole: "list of materials" };
}

/** Any of these; undefined where none can be read. */
function oneOf(stated: readonly MeasureSlot[], word: string): Pores | undefined {
  const pores = stated.flatMap(({ quantity }) => (quantity ? [inBase(quantity)] : []));
  if (pores.length === 0) return undefined;
  const isSame = (pore: Exact, said: Exact) =>
    said.isAtMost(pore.times(sameFilter)) && pore.isAtMost(said.times(sameFilter));
  return {
    isRight: (said) => pores.some((pore) => isSame(pore, said)),
    says: `${word}${[...new Set(stated.map(({ written }) => written))].join(" and ")}`,
  };
}

/** An emulsion does not pass a fine filter, whether its monograph says so or it is one by its nature. */
function monographPores(recipe: Recipe, lookup: Lookup): Pores[] {
  return orderedDrugs(recipe).flatMap((name) => {
    const drug = lookup.find("drug", name);
    if (!drug) return [];
    const whole = `monograph of ${name}`;
    const stated = (["filter", "in-line-filter"] as const).flatMap((word) =>
      drug.facts.all(word).flatMap(({ slots: { never, floor } }): Pores[] => {
        const finest = never && floor?.quantity;
        if (!finest) return [];
        const isRight = (said: Exact) => inBase(finest).isAtMost(said);
        return [{ isRight, says: `${word} never below ${floor.written}`, whole }];
      }),
    );
    const particles = particlesOf(drug);
    if (stated.length > 0 || !particles) return stated;
    return [
      {
        isRight: (said) => !isSterilising({ value: said.over(micrometre.factor), unit: micrometre }),
        says: `nature ${particles.nature}`,
        whole,
      },
    ];
  });
}

const terminally = /\bterminally sterili[sz]ed\b/i;
const aseptically =
  /\b(?:aseptically (?:prepared|made|filled)|(?:prepared|made|filled) aseptically|aseptic(?:ally)? prepar\w+)\b/i;

/** `Terminally sterilised` on what was made aseptically, and the other way round. */
export function sterilisingContradicted(text: string, { preparations }: Recipe): Contradiction | undefined {
  const called = preparations.map(({ facts }) => facts.one("sterility")?.slots.process.choice ?? "aseptic");
  if (called.length === 0) return undefined;
  for (const sentence of assertions(text)) {
    const [heated] = terminally.exec(sentence) ?? [];
    const [clean] = aseptically.exec(sentence) ?? [];
    if (heated !== undefined && !called.includes("terminally-sterilised"))
      return { said: heated.toLowerCase(), ordered: "that it is made aseptically", whole: "preparation" };
    if (clean !== undefined && heated === undefined && !called.includes("aseptic"))
      return { said: clean.toLowerCase(), ordered: "terminally-sterilised", whole: "preparation" };
  }
  return undefined;
}
