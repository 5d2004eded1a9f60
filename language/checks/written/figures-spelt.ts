/** Figures that a printed text writes out: `two grams`, `half a gram`, `one hundred and fifty millilitres`, `5 mega units`. */
import { Exact } from "../../quantities/exact.ts";
import { mostSentences, remembered } from "../../quantities/remembered.ts";
import { findUnit } from "../../quantities/unit.ts";
import { inVolumesSpelt } from "./amounts-in-volumes.ts";

const small: ReadonlyMap<string, number> = new Map(
  "zero one two three four five six seven eight nine ten eleven twelve thirteen fourteen fifteen sixteen seventeen eighteen nineteen"
    .split(" ")
    .map((word, value) => [word, value]),
);
const tens: ReadonlyMap<string, number> = new Map(
  "twenty thirty forty fifty sixty seventy eighty ninety".split(" ").map((word, at) => [word, 20 + 10 * at]),
);
const scales: ReadonlyMap<string, number> = new Map([
  ["thousand", 1000],
  ["million", 1_000_000],
]);
const shares: ReadonlyMap<string, string> = new Map([
  ["half", "0.5"],
  ["quarter", "0.25"],
]);

const one = `(?:${[...small.keys(), ...tens.keys()].join("|")})`;
const joined = `${one}(?:(?:-| |-| and | point )(?:${one}|hundred|thousand|million))*`;
/** A number in words with the word behind it. */
const number = new RegExp(
  `(?<![\\w-])(?:(an?|${joined}|\\d+) and a (half|quarter)|(a )?(half|quarter)(?: of)? an?|(a (?:hundred|thousand|million)(?: ${joined})?|${joined}))([ -])([a-z]+)`,
  "gi",
);
/** `2 g every hour` is a rate. */
const hourly = /(\d ?[A-Za-z]+) (?:every|each|an|a) (hour|minute)\b/g;
const mega = /(\d) ?mega ?units?\b/gi;

interface Spelt {
  /** The text with its figures in digits. */
  text: string;
  /** What stood there, and what stands there now. */
  each: readonly { words: string; figure: string }[];
}

const spelt = remembered((text: string): Spelt => {
  const each: { words: string; figure: string }[] = [];
  const put = (words: string, figure: string): string => {
    each.push({ words, figure });
    return figure;
  };
  const inDigits = text.replace(
    number,
    (whole, before?: string, share?: string, _a?: string, alone?: string, words?: string, gap = " ", next = "") => {
      if (findUnit(next.toLowerCase()).unit === undefined || next.length < 2) return whole;
      const value =
        before !== undefined
          ? numberOf(before)?.plus(Exact.of(shares.get(share!.toLowerCase())!))
          : alone !== undefined
            ? Exact.of(shares.get(alone.toLowerCase())!)
            : numberOf(words!);
      return value ? put(whole, `${inPrint(value)}${gap}${next}`) : whole;
    },
  );
  const inMillions = inDigits.replace(mega, (words: string, digit: string) => put(words, `${digit} million units`));
  return {
    text: inMillions.replace(hourly, (words, of: string, time: string) => put(words, `${of} per ${time}`)),
    each,
  };
}, mostSentences);

/** The text with figures in digits, and with `10 mg in 100 mL` for what is written `10 mg/100 mL`. */
export function inFigures(text: string): string {
  return inVolumesSpelt(spelt(text).text);
}

/** What is said of a text, in its own words again. */
export function asPrinted(text: string, said: string): string {
  return spelt(text).each.reduce((so, { words, figure }) => so.replace(figure, () => words), said);
}

/** Undefined for what is no number as people say it (`five three`). */
function numberOf(words: string): Exact | undefined {
  if (/^\d+$/.test(words)) return Exact.of(words);
  const [whole = "", decimals, more] = words.toLowerCase().split(" point ");
  if (more !== undefined) return undefined;
  const digits = decimals?.split(/[ -]/).map((word) => small.get(word));
  if (digits?.some((digit) => digit === undefined || digit > 9)) return undefined;
  const parts = whole.split(/[ -]/).filter((word) => word !== "and");
  let [total, group] = [0, 0];
  let last = Number.POSITIVE_INFINITY;
  for (const part of parts) {
    const scale = scales.get(part);
    const value = part === "a" ? 1 : (small.get(part) ?? tens.get(part));
    if (scale !== undefined) {
      total += (group === 0 ? 1 : group) * scale;
      [group, last] = [0, Number.POSITIVE_INFINITY];
    } else if (part === "hundred") {
      if (group > 9) return undefined;
      [group, last] = [(group === 0 ? 1 : group) * 100, 100];
    } else {
      if (value === undefined || value >= last || (value === 0 && parts.length > 1)) return undefined;
      group += value;
      last = value >= 20 ? 10 : 1;
    }
  }
  const sum = Exact.of(total + group);
  return digits ? Exact.of(`${total + group}.${digits.join("")}`) : sum;
}

/** 2,400,000 is `2.4 million`; thousands are grouped. */
function inPrint(value: Exact): string {
  const million = Exact.of(1_000_000);
  if (value.isAtLeast(million)) return `${value.over(million).toText()} million`;
  const [whole = "", part] = value.toText().split(".");
  const grouped = whole.replace(/\B(?=(?:\d{3})+$)/g, ",");
  return part === undefined ? grouped : `${grouped}.${part}`;
}
