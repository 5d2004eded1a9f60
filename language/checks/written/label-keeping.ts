/** Where and how long a printed line has the preparation kept, and whether from light, laid against the preparation and the monograph. */
import { orderedDrugs } from "../../bench/stray-drugs.ts";
import { type TablePlace, tablePlace } from "../../model/beyond-use-policy.ts";
import type { Recipe } from "../../model/declaration.ts";
import type { Lookup } from "../../model/lookup.ts";
import { Exact } from "../../quantities/exact.ts";
import { hours } from "../../quantities/hours.ts";
import { mostSentences, remembered } from "../../quantities/remembered.ts";
import { findUnit } from "../../quantities/unit.ts";
import { type Contradiction, sentencesIn } from "./words-against-order.ts";

/** As a person counts. */
const daysInMonth = 30;

const degrees = "(?: ?°)? ?C\\b";
/** `2-8 °C`, `2 °C to 8 °C`. */
const through = `(?:${degrees})?(?: ?-| ?–| to) ?`;
/** Words of a place; several may stand in one line, each with its time. */
const places: readonly [TablePlace, RegExp][] = [
  ["freezer", new RegExp(`\\b(?:freezer|frozen)\\b|(?:^|\\s)[-−–]\\d\\d${degrees}`, "i")],
  ["refrigerator", new RegExp(`\\b(?:refrigerator|refrigerated?|fridge|cold room)\\b|\\b2${through}8${degrees}`, "i")],
  [
    "controlled-room-temperature",
    new RegExp(
      `\\b(?:room|ambient) temperature\\b|\\b(?:below|under|up to|at|not above) (?:25|30)${degrees}|\\b(?:1?5|20)${through}(?:25|30)${degrees}`,
      "i",
    ),
  ],
];

/** Of `24-48 h` the longer one counts. */
const time = "(?:\\d+(?:\\.\\d+)? ?(?:-|–|to) ?)?(\\d+(?:\\.\\d+)?)(?: |-)?([a-z]+)\\b";
/** A time for which it may be kept, the words of it that a message repeats in a group. */
const lives = [
  `\\b(?:use|used|discard|expires?) (?:within|after|in) (${time})`,
  `\\b(?:keeps|keep|kept|stored?|stable|good|valid|lasts?)(?: for)?(?: up to)? (${time})`,
  `\\b(?:expiry(?: date)?|expires|beyond[- ]use(?: date)?|BUD|shelf[- ]life|use by)(?: is| of)?:?(?: up to)? (${time})`,
  `\\b(${time}) (?:expiry|shelf[- ]life|beyond[- ]use|after (?:preparation|making|mixing|compounding))\\b`,
].map((pattern) => new RegExp(pattern, "i"));
/** `10 days at room temperature`. */
const placed = new RegExp(`\\b(${time})(?= (?:at|in|if|when|below|under|refrigerated|frozen|\\()|$)`, "i");

/** What goes into it, and what is done before it is used, has a place and a time of its own. */
const ofAnother =
  /\b(?:vials?|ampoules?|stock|unopened|powder|reconstitut\w*|reach(?:es)?|warm(?:ed)?|let|take (?:it )?out|taken out|bring|brought|remove[ds]?)\b/i;
const keeps = /\b(?:stored?|keep|kept|refrigerate|put)\b|^\s*(?:refrigerated|frozen)\b/i;
const never = /\b(?:not|never|no|avoid|don't|without)\b/i;
const neverCold =
  /\b(?:not|never) (?:be )?(?:refrigerate|refrigerated|put in(?:to)? (?:a|the) (?:refrigerator|fridge))\b/i;

interface Keeping {
  /** In hours, as written. */
  life: { said: string; hours: Exact } | undefined;
  place: { said: string; place: TablePlace } | undefined;
  /** It says where to keep it, and not only how long. */
  keeps: boolean;
}

/** `Store in a refrigerator, do not freeze`: what is forbidden behind the comma forbids nothing before it. */
const clauseEnd = /[,;]|\band (?=(?:do not|don't|never|not)\b)/;

/** Each part of a sentence: `24 h at room temperature, 10 days refrigerated`. */
const keepingsIn = remembered(
  (sentence: string): readonly Keeping[] =>
    sentence.split(clauseEnd).flatMap((clause) =>
      clause.split(/\b(?:or|and|then)\b/).map((part) => {
        const place = placeIn(part);
        return { life: lifeIn(part, place !== undefined), place, keeps: keeps.test(part) && !never.test(clause) };
      }),
    ),
  mostSentences,
);

function placeIn(part: string): Keeping["place"] {
  for (const [place, pattern] of places) {
    const said = pattern.exec(part)?.[0].trim();
    if (said !== undefined) return { said, place };
  }
  return undefined;
}

function lifeIn(part: string, isPlaced: boolean): Keeping["life"] {
  for (const pattern of isPlaced ? [...lives, placed] : lives) {
    const [, said = "", number = "", word = ""] = pattern.exec(part) ?? [];
    const { unit } = findUnit(word.toLowerCase());
    const length = unit && hours({ value: Exact.of(number), unit }, daysInMonth);
    if (length) return { said, hours: length };
  }
  return undefined;
}

/** A longer life than the recipe gives it there, or another storage. */
export function keepingContradicted(text: string, recipe: Recipe): Contradiction | undefined {
  const rows = recipe.preparations.flatMap((p) => p.facts.all("use-within"));
  if (rows.length === 0) return undefined;
  const whole = "preparation";
  const known = new Set(
    [...rows, ...recipe.preparations.flatMap((p) => p.facts.all("store"))].map(({ slots }) => slots.place.name),
  );
  const kept = [...known].map(tablePlace);
  const here = `use-within at ${[...known].join(" and ")}`;
  for (const sentence of sentencesIn(text)) {
    if (ofAnother.test(sentence)) continue;
    const warm = neverCold.exec(sentence)?.[0];
    if (warm !== undefined && kept.includes("refrigerator"))
      return { said: warm, ordered: "use-within at refrigerator", whole };
    const said = keepingsIn(sentence);
    for (const { life, place } of said) {
      const longest = life && limitOf(place?.place, recipe);
      if (life && longest?.every((each) => life.hours.isAbove(each.hours)))
        return {
          said: place ? stretch(sentence, life.said, place.said) : life.said,
          ordered: `use-within ${[...new Set(longest.map((each) => each.written))].join(" and ")}`,
          whole,
        };
    }
    // A place that is not known here may be any.
    if (kept.includes(undefined)) continue;
    const colder = said.find(
      ({ life, place }) =>
        life && place && place.place !== "controlled-room-temperature" && !kept.includes(place.place),
    );
    if (colder?.life && colder.place)
      return { said: stretch(sentence, colder.life.said, colder.place.said), ordered: here, whole };
    // One of several is enough.
    if (said.some(({ place }) => place && kept.includes(place.place))) continue;
    // What is kept cold may lie out for a shorter while.
    const isWhile = (life: Exact) => limitOf(undefined, recipe)?.every((each) => life.isBelow(each.hours)) === true;
    const other = said.find(({ place, keeps, life }) => place && (life ? !isWhile(life.hours) : keeps));
    if (other?.place) return { said: other.place.said, ordered: here, whole };
  }
  return undefined;
}

/** `10 days below 25 °C`, as the line says it. */
function stretch(sentence: string, life: string, place: string): string {
  const [start, end] = [sentence.indexOf(life), sentence.lastIndexOf(place) + place.length];
  return start < end ? sentence.slice(start, end) : `${life}, ${place}`;
}

interface Limit {
  hours: Exact;
  written: string;
}

/** How long it may be kept there, or at all; undefined where a limit cannot be counted in hours, or nothing is said of that place. */
function limitOf(place: TablePlace | undefined, { preparations }: Recipe): Limit[] | undefined {
  const rows = preparations.flatMap((p) => p.facts.all("use-within"));
  const there = place ? rows.filter(({ slots }) => tablePlace(slots.place.name) === place) : rows;
  const opened = place ? [] : preparations.flatMap((p) => p.facts.all("after-opening"));
  const limits = [
    ...there.map(({ slots }) => ({ slot: slots.time, at: place ? ` at ${slots.place.name}` : "" })),
    ...opened.map(({ slots }) => ({ slot: slots.time, at: "" })),
  ].map(({ slot, at }) => ({ hours: hours(slot.quantity, daysInMonth), written: `${slot.written}${at}` }));
  if (limits.length === 0) return undefined;
  return limits.every((each): each is Limit => each.hours !== undefined) ? limits : undefined;
}

const protection = /\b(?:protection from light|light[- ]protection|protect(?:ed|ing)? (?:it )?from light)\b/i;
const needless =
  /\b(?:not (?:be )?(?:needed|required|necessary|need)|no need|unnecessary|needless|need not|without)\b|\bno\b.*\b(?:needed|required|necessary)\b/i;
const insensitive = /\bnot (?:light[- ]sensitive|sensitive to light|photosensitive)\b/i;
const exposed = /\b(?:keep|store|hang|leave|run)\b[^.;]*\bin (?:day|sun)?(?:light|daylight)\b/i;

/** `Protection from light not required` on what light spoils. */
export function lightContradicted(text: string, recipe: Recipe, lookup: Lookup): Contradiction | undefined {
  if (!/light/i.test(text)) return undefined;
  const drug = orderedDrugs(recipe).find(
    (name) => lookup.find("drug", name)?.facts.one("light")?.slots.need.choice === "protect-always",
  );
  if (drug === undefined) return undefined;
  for (const sentence of sentencesIn(text)) {
    if (ofAnother.test(sentence)) continue;
    const isNeedless = (protection.test(sentence) && needless.test(sentence)) || insensitive.test(sentence);
    if (isNeedless || (exposed.test(sentence) && !never.test(sentence)))
      return { said: sentence.trim(), ordered: "light protect-always", whole: `monograph of ${drug}` };
  }
  return undefined;
}
