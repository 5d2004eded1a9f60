/**
 * What a drug chart says in one line and an order says otherwise: `dose 4 g daily`, `dose AUC 5`, `infuse-over 4 h 30 min`. The line is
 * not read; here stands what to write instead. Forms: common practice of drug charts, from memory.
 */

import type { Problem } from "../../model/facts.ts";
import { measureAt } from "../../model/form-match.ts";
import type { Spot } from "../../model/slots.ts";
import { timeInOneUnit } from "../../quantities/clock-time.ts";
import { showQuantity, toUnit } from "../../quantities/quantity.ts";
import { ratioStrength } from "../../quantities/ratio.ts";
import { findUnit } from "../../quantities/unit.ts";
import { byExposure } from "../../quantities/unit-spellings.ts";
import type { Line, Token } from "../../syntax/tree.ts";
import type { Repair } from "../check.ts";
import { replaceText } from "../edits.ts";
import { word as wordOf } from "../problems.ts";
import { misfitAt } from "./misfit.ts";

export interface OrderForm {
  /** Plain sentences; the last says what to write. */
  text: string;
  /** Where one text alone is meant. */
  instead?: { at: Spot; text: string };
}

/** The fix that puts the text that is meant in its place. */
export function fixOf({ at, text }: NonNullable<OrderForm["instead"]>): Repair {
  const title = text === "" ? "Leave it out" : text.trim() === "," ? "Write a comma" : `Write ${text}`;
  return { title, edits: [replaceText(at, text)] };
}

interface Place {
  tokens: readonly Token[];
  /** Index of the token that does not fit; the number of tokens where the line ends too soon. */
  at: number;
  /** From there to the end of the line, with single blanks. */
  rest: string;
}

const often =
  /^(?:daily|nightly|hourly|weekly|monthly|every|once|twice|thrice|stat|prn|q\d+h|[bt]d|[bt]id|[tq]ds|q[id]d|od|om|on|nocte|then)\b/i;

type Row = readonly [pattern: RegExp, remedy: string | ((place: Place) => OrderForm | undefined)];

const ofDose: readonly Row[] = [
  [/^auc\b/i, exposureInFront],
  [
    /^(?:to|-|–|or) /,
    "An order has one dose. Write the dose that is made, or one by weight or surface with its range, such as `25 mg/kg` and `weight 40 kg to 120 kg`.",
  ],
  [/^\(? ?(?:up to|max(?:imum)?\b|not more|not exceeding|capped|cap\b)/i, cap],
  [
    often,
    "How often it is given is not part of one container. Write the dose that this one holds, and the rest in a `note`.",
  ],
  [/^(?:over|during) /, "The time is a line of its own: write `infuse-over` with it."],
  [/^in [a-z]/, "Write `per` and the name of the container."],
  [
    /^in /,
    "The volume is a line of its own: write `diluent-volume` for what it is added to, or `final-volume` for all of it.",
  ],
  [
    /^for /,
    "For how long it is given is not part of the dose. Write what one container holds, or the amount by time as `per 24 h`.",
  ],
  [/^each\b/, "Write `per` and the name of the container."],
  [
    /^(?:iv|im|sc|po|it|intra[a-z]+|subcut[a-z]*|oral(?:ly)?|epidural)\b/i,
    "The route is a line of its own: write `route` with its whole name.",
  ],
  [/^[x×*] /i, "Write the whole amount that one container holds."],
  [/^(?:[(=]|equal)/, "One figure orders the dose; others follow from it. Leave them out."],
  [
    /^(?:[iat]bw\b|ideal|adjusted|actual|lean|dosing|total body)/i,
    "`weight` is the weight that the dose goes by. State that one; how it was found belongs in a `note`.",
  ],
  [/^\./, figureWithoutPlaces],
  [/^per /, unitInPieces],
  [
    /^\d[\d.,^/]*(?: |$)/,
    "An order counts the drug, not a volume of stock or a share of a dose. Write the amount of drug, such as mg.",
  ],
  [
    /^(?:about|approx\S*|circa|ca\.?|c\.|some|[~≈±+])/i,
    "A dose is one figure. Write it alone; what it may be off by is `tolerance` of the site.",
  ],
  [
    /^(?:[<>≤≥]|at (?:least|most)|less|more|from)/,
    "A dose is one figure. Write it alone; a limit is a line of its own, `maximum dose` or `minimum dose`.",
  ],
  [/^(?:[ivxlcm]+|half|one|two|three|four|five|six|seven|eight|nine|ten) /i, "Write the number in figures."],
  [/^$/, "Write what it is for: `per` with the name of the container, or with a time such as `24 h`."],
  [
    /^[a-z][\w.-]* per /,
    "The drug is named in the line `drug`, or in front of its dose in `additive`. Leave it out here.",
  ],
  [
    /^[a-z][a-z-]*$/,
    "An ion that is counted is written `of` in front of it, a salt `as`; the drug itself is not named here. Behind that stands what it is for: `per` with the name of the container.",
  ],
];

const ofTime: readonly Row[] = [
  [/^\d/, inOneUnit],
  [/^(?:to|-|–|or) /, "Write the one time that the container is given over; limits stand in `rate` of the drug."],
  [/^(?:over|during|in) /, leftOut],
  [/^(?:stat|bolus|push)\b/i, "Write the time that the push takes, such as 5 min, and `use bolus`."],
  [/^['’"°]/, "Write the unit: h, min or s."],
];

const ofRate: readonly Row[] = [
  [/^(?:hourly|daily)/, "Write the unit below a slash, such as mg/h."],
  [
    /^(?:to|-|–|or) /,
    "Write the one rate that it is started at; limits stand in `rate` of the drug, and `use titrated` says that it is changed.",
  ],
  [
    /^(?:kvo|tko|wide|stat|maintenance|bolus|free)/i,
    "Write the rate in figures, such as 5 mL/h. A share of maintenance is a rate too, once it is worked out.",
  ],
  [/^in /, "Write the amount for one hour or one minute, or `infuse-over` with the time."],
];

const ofRange: readonly Row[] = [
  [
    /^(?:-|–|—|…|\.\.|and |between |from |up to |above |below |[<>≤≥])/,
    "Write both ends: the lower, `to`, the upper, each with its unit.",
  ],
  [/^(?:about|approx\S*|circa|ca\.?|c\.|[~≈±])/i, "Write the figure alone, or both ends with `to`."],
];

const ofVolume: readonly Row[] = [
  [/^lumen\b/, "Write the volume that is made, such as 3 mL; whether it fills the lumen is checked."],
  [/^[A-Za-z]/, fluidBehind],
];

const ofForm: Row = [
  /^as /,
  "What is counted stands in the drug: `counted-as` names the form that these figures speak of. Write the figure for that form, without `as`.",
];

const ofConcentration: readonly Row[] = [[/^in /, inOneMillilitre], ofForm];

const ofUse: readonly Row[] = [
  [
    /^(?:pca|pcea|patient|demand|on-demand)/i,
    "What a patient or a ward takes single doses from has no one rate: write `use titrated`.",
  ],
];

const ofStrength: readonly Row[] = [
  [
    /^of [a-z]/,
    "The strength counts the drug, or behind `as` a salt of it. What the product holds of an ion is a line of its own: `contains`, the ion and the amount in one mL.",
  ],
];

const ofContent: readonly Row[] = [[/^per\b/, "What it states is the content of one container. Leave the rest out."]];

const ofPlace: readonly Row[] = [
  [/^(?:in|@|in the) /, "Write `at` and the place, such as `at refrigerator`."],
  [
    /^(?:(?:and )?(?:protect\S*|away|kept)|in the dark|shielded)\b/i,
    "That it is kept from light is a step: write `protect`, the container, `from light`. Leave it out here.",
  ],
  [/^(?:immediate|at once|straight|stat\b)/i, "Write a time and a place, such as `1 h at room-temperature`."],
  [/^$/, "Write `at` and the place where that holds, such as `at room-temperature`."],
  [
    /^(?:up to |below |under |max |[<>≤≥]+ ?)?-?[\d.]+ ?(?:°|deg|C\b|F\b)?/i,
    "A place is a name: `room-temperature`, `refrigerator`, `freezer`.",
  ],
];

const ofOpening: readonly Row[] = [
  [/^(?:at|in) /, "Where it is kept is a line of its own: write `store` with the place."],
];

const tables: Readonly<Record<string, readonly Row[]>> = {
  "infuse-over": ofTime,
  "infuse-at": ofRate,
  weight: ofRange,
  age: ofRange,
  "body-surface": ofRange,
  clearance: ofRange,
  lumen: ofRange,
  "diluent-volume": ofVolume,
  "final-volume": ofVolume,
  concentration: ofConcentration,
  "nominal-concentration": ofConcentration,
  "usual-concentration": [ofForm],
  dose: [ofForm],
  rate: [ofForm],
  use: ofUse,
  "after-opening": ofOpening,
  "use-within": ofPlace,
  "never-stored": ofPlace,
  storage: ofPlace,
  store: ofPlace,
  at: ofPlace,
  content: ofContent,
  contains: [[/^in /, inOneMillilitre]],
  strength: ofStrength,
};

/** What the line means on a chart and how an order says it; undefined where that is not known. */
export function orderForm(problem: Problem, line: Line | undefined): OrderForm | undefined {
  const [first] = line?.tokens ?? [];
  if (!line || !first) return undefined;
  const table = isOrderedDose(first.text, wordOf(problem, "form")) ? ofDose : tables[first.text];
  if (!table) return undefined;
  const found = misfitAt(problem, line);
  // Where the line ends too soon, the place is that of its end.
  const at = found < 0 || wordOf(problem, "found") === "" ? line.tokens.length : found;
  const rest = line.tokens
    .slice(at)
    .map((t) => t.text)
    .join(" ");
  for (const [pattern, remedy] of table) {
    if (!pattern.test(rest)) continue;
    return typeof remedy === "string" ? { text: remedy } : remedy({ tokens: line.tokens, at, rest });
  }
  return undefined;
}

/** `dose` of a drug or of a band is another fact. */
function isOrderedDose(word: string, form: string): boolean {
  return (word === "dose" || word === "additive" || word === "target") && form.includes(" per (");
}

function cap({ tokens, at }: Place): OrderForm {
  const place = tokens.findIndex((t, i) => i > at && t.kind === "number");
  const limit = place < 0 ? undefined : measureAt(tokens, place)?.value;
  // `(max 4 g)`: the bracket stands in the unit.
  const unit = limit?.unit?.text.replace(/\)$/, "") ?? "";
  const isKnown = limit !== undefined && findUnit(unit).unit !== undefined;
  const line = isKnown ? `\`maximum dose ${limit.number.text} ${unit}\`` : "`maximum dose` with its figure";
  return { text: `The cap is a line of its own: write ${line}.` };
}

/** `dose AUC 5 per bag`: the figure goes in front, as of every unit. */
function exposureInFront({ tokens, at }: Place): OrderForm {
  const [word, number] = tokens.slice(at);
  if (!word || number?.kind !== "number") return { text: byExposure };
  return { text: byExposure, instead: { at: { start: word.start, end: number.end }, text: `${number.text} AUC` } };
}

/** `50 mg per kg per bag`. */
function unitInPieces({ tokens, at }: Place): OrderForm | undefined {
  const [number, unit, per, below] = tokens.slice(Math.max(0, at - 4), at);
  if (!number || unit?.kind !== "unit" || per?.text !== "per" || !below) return undefined;
  const joined = `${unit.text}/${below.text}`;
  const text = `${number.text} ${joined}`;
  return findUnit(joined).unit
    ? { text: `A unit is one word. Write ${text}.`, instead: { at: { start: number.start, end: below.end }, text } }
    : {
        text: "An order is per one thing: the finished container, or a time. Leave the other out, or say it in a `note`.",
      };
}

/** `4. g`. */
function figureWithoutPlaces({ tokens, at }: Place): OrderForm | undefined {
  const [number, point, unit] = [tokens[at - 1], tokens[at], tokens[at + 1]];
  if (number?.kind !== "number" || !point || !unit || !findUnit(unit.text).unit) return undefined;
  const text = `${number.text} ${unit.text}`;
  return {
    text: `A point with no figure behind it may have lost one. Write ${text} if that is meant.`,
    instead: { at: { start: number.start, end: unit.end }, text },
  };
}

/** `4 h 30 min` is 4.5 h; behind hours a bare 30 and 30 m are minutes. */
function inOneUnit({ tokens, at }: Place): OrderForm | undefined {
  const [hours, rest] = [measureAt(tokens, at - 2)?.value, measureAt(tokens, at)];
  if (!hours?.quantity || !rest || rest.next < tokens.length) return undefined;
  const { number, unit, end } = rest.value;
  const text = timeInOneUnit(hours.quantity, number.text, unit?.text ?? "");
  if (text === undefined) return undefined;
  return { text: `A time has one unit. Write ${text}.`, instead: { at: { start: hours.start, end }, text } };
}

/** `100 mL NS`. */
function fluidBehind({ tokens, at }: Place): OrderForm | undefined {
  if (tokens[at - 1]?.kind !== "unit") return undefined;
  return { text: "Which fluid it is stands in the line `diluent`. Leave it out here." };
}

/** `over 4 h` behind a word that says so. */
function leftOut({ tokens, at }: Place): OrderForm {
  const [token, next] = [tokens[at]!, tokens[at + 1]];
  const text = `The word of the line says so already. Leave out \`${token.text}\`.`;
  return next ? { text, instead: { at: { start: token.start, end: next.start }, text: "" } } : { text };
}

/** `4 g in 108 mL` is 37.04 mg/mL. */
function inOneMillilitre({ tokens, at }: Place): OrderForm | undefined {
  const volume = measureAt(tokens, at + 1)?.value;
  const share = ratioStrength(`${tokens[at - 1]?.text}:${volume?.number.text}`, volume?.unit?.text ?? "");
  if (share) {
    const text = showQuantity(share);
    const place = { start: tokens[at - 1]!.start, end: volume!.end };
    return { text: `Ratios are misread. Write ${text}.`, instead: { at: place, text } };
  }
  const amount = measureAt(tokens, at - 2)?.value;
  if (!amount?.quantity || volume?.quantity?.unit.dimension.key !== "volume" || !volume.quantity.value.isPositive())
    return undefined;
  const unit = findUnit(`${amount.quantity.unit.spelling}/${volume.quantity.unit.spelling}`).unit;
  if (!unit) return undefined;
  const per = { value: amount.quantity.value.over(volume.quantity.value), unit };
  const milligrams = toUnit(per, findUnit("mg/mL").unit!);
  const shown = showQuantity("refused" in milligrams ? per : milligrams);
  return {
    text: `A concentration is the amount in one mL. Write ${shown}.`,
    instead: { at: { start: amount.start, end: volume.end }, text: shown },
  };
}
