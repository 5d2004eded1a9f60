/** A bolus or an infusion that a printed line speaks of, laid against how the order has the container given: pushed, or run. */
import { isGivenAtOnce } from "../../bench/given-at-once.ts";
import type { Recipe } from "../../model/declaration.ts";
import { Exact } from "../../quantities/exact.ts";
import { hoursOfGiving } from "../../quantities/hours.ts";
import { inBase } from "../../quantities/quantity.ts";
import { findUnit } from "../../quantities/unit.ts";
import { timesIn } from "./label-times.ts";
import { assertions, type Contradiction, sentencesIn } from "./words-against-order.ts";

const veins = "IV|I\\.V\\.|intravenous(?:ly)?";
const pace = "(?:(?:slow|rapid|fast|single|stat) )?";

/** All of the container at once. */
const pushed = [
  `(?:for |by |as (?:an? )?|give )?${pace}(?:${veins}) ${pace}(?:bolus|push)(?: (?:only|use|injection|dose))?`,
  `(?:for|by|as(?: an?)?) ${pace}(?:bolus|push)(?: (?:only|use|injection|dose|administration))?`,
  "(?:bolus|push)(?: dose| injection)? (?:only|use)",
  `rapid(?:ly)? (?:${veins})(?: injection)?`,
  "\\d[\\d.,]* ?(?:m?g|mcg|units|mmol|mEq) (?:as (?:an? )?)?bolus",
].map((pattern) => new RegExp(`\\b(?:${pattern})\\b(?! (?:of|from|dose of) |\\s*\\d)`, "i"));

/** A part of what hangs is pushed too, and a push may go before or with what runs. */
const isPart =
  /\b(?:infus\w+|if|may|on|with|plus|and|or|from|of|loading|rescue|breakthrough|demand|request|pca|top-?ups?|extra|additional|lock-?out)\b/i;

const running = new RegExp(
  `\\bfor (?:[a-z]+ ){0,2}infusion\\b|\\b(?:${veins}|continuous|slow) infusion\\b|\\binfusion only\\b|\\b(?:continuous )?drip\\b|\\b\\d[\\d.,]* ?(?:m?g|mcg|units|mmol|mEq) infusion\\b`,
  "i",
);
const isPushed = /\b(?:bolus\w*|push\w*|injections?|or|and)\b/i;

/** What takes longer is no push any more: common practice. */
const slowestPush = Exact.of("0.25");

export function wayOfGivingContradicted(text: string, recipe: Recipe): Contradiction | undefined {
  const { order } = recipe;
  if (!order) return undefined;
  const over = order.one("infuse-over");
  const use = order.one("use")?.slots.use;
  const asOrdered = use ? `use ${use.choice}` : `infuse-over ${over?.slots.time.written}`;
  if (isGivenAtOnce(recipe)) return over ? undefined : infusionSaid(text, asOrdered);
  return isRun(recipe) && !order.one("lumen") ? bolusSaid(text, asOrdered) : undefined;
}

/** Whether the order says that it runs in, and is not pushed. */
export function isRun({ order }: Recipe): boolean {
  const use = order?.one("use")?.slots.use.choice;
  if (use !== undefined) return use === "infusion" || use === "titrated";
  const [over, second] = order?.all("infuse-over") ?? [];
  return !second && (hoursOfGiving(over?.slots.time.quantity)?.isAbove(slowestPush) ?? false);
}

/** What stays in a line until it is drawn out again. */
const lock = /\b(?:heparin|line|catheter|antibiotic|citrate|taurolidine) lock\b/i;
const besideLock = /\b(?:compatible|flush\w*|remove\w*|withdraw\w*|with|and|or)\b/i;

function bolusSaid(text: string, ordered: string): Contradiction | undefined {
  for (const sentence of assertions(text)) {
    const [locked] = lock.exec(sentence) ?? [];
    if (locked !== undefined && !besideLock.test(sentence)) return { said: locked, ordered };
    for (const pattern of pushed) {
      const [said] = pattern.exec(sentence) ?? [];
      if (said !== undefined && !isPart.test(sentence.replace(said, ""))) return { said, ordered };
    }
  }
  return undefined;
}

function infusionSaid(text: string, ordered: string): Contradiction | undefined {
  for (const sentence of assertions(text)) {
    const [said] = running.exec(sentence) ?? [];
    if (said !== undefined && !isPushed.test(sentence)) return { said, ordered };
    const long = timesIn(sentence).find(({ quantity }) => inBase(quantity).isAbove(slowestPush));
    if (long) return { said: long.said, ordered };
    const [atRate] = /\b(?:run|infuse|rate|pump)\b.*\d ?mL\/h\b/i.exec(sentence) ?? [];
    if (atRate !== undefined && !ofAnotherLiquid.test(sentence)) return { said: atRate, ordered };
  }
  const least = sentencesIn(text).flatMap(longAtLeast)[0];
  return least === undefined ? undefined : { said: least, ordered };
}

const ofAnotherLiquid = /\b(?:flush\w*|maintenance|line|carrier|other|via|running)\b/i;
const atLeast =
  /\bover (?:at least |no less than |not less than |a minimum of )?(\d+(?:\.\d+)?)(?: ?(h|hours?|min|minutes?)\b)?(?: (?:to|or) \d+(?:\.\d+)? ?(h|hours?|min|minutes?)\b)?/i;

/** `Over at least 30 minutes`, `over 30 to 60 minutes`: no push takes so long. */
function longAtLeast(sentence: string): string[] {
  const [said, number, own, last] = atLeast.exec(sentence) ?? [];
  const unit = findUnit((own ?? last ?? "").toLowerCase()).unit;
  if (
    said === undefined ||
    !unit ||
    isPushed.test(sentence.replace(said, "")) ||
    /\b(?:not|never)\b(?! less)/i.test(sentence)
  )
    return [];
  return inBase({ value: Exact.of(number!), unit }).isAbove(slowestPush) ? [said] : [];
}
