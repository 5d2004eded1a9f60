/**
 * When a preparation ends: for each storage place the stated limit counted from the time of preparation, and never later than the
 * end of the expiry of a lot that goes in. Source of the second rule: practice/expiry.json, "the beyond-use moment is compared
 * with the end of the expiry day of every component".
 */
import type { Run } from "../bench/run.ts";
import {
  beyondUseEnd,
  compareMoments,
  type DateFault,
  dateText,
  endOfExpiry,
  instantOf,
  isDateFault,
  type Moment,
  momentAt,
} from "../model/dates.ts";
import type { Named } from "../model/declaration.ts";
import type { preparationFacts } from "../model/declarations/recipe.ts";
import type { Policy } from "../model/policy.ts";
import type { MeasureSlot } from "../model/slots.ts";
import { Exact } from "../quantities/exact.ts";
import { inBase } from "../quantities/quantity.ts";
import type { ChosenLots } from "./materials.ts";
import { placeText } from "./product.ts";
import { fixed, type Said, written } from "./said.ts";
import type { BeyondUseRow } from "./sheet.ts";

export type Preparation = Named<typeof preparationFacts>;

export interface BeyondUse {
  row: BeyondUseRow;
  end: Moment | undefined;
}

export function beyondUseOf(
  run: Run,
  preparation: Preparation,
  start: Moment,
  chosen: ChosenLots,
  policy: Policy,
): BeyondUse[] {
  const lot = firstToEnd(chosen, start.zone);
  const counts = policy.useWithinCounts === "end" ? "giving must be finished by then" : "giving must begin by then";
  return preparation.facts.all("use-within").map((fact) => {
    const { time, place } = fact.slots;
    const words = {
      place: written(placeText(place.name), `recipe ${run.recipe.name.name}`),
      limit: written(time.written, `recipe ${run.recipe.name.name}`),
    };
    const end = endOf(start, time);
    if (isDateFault(end))
      return {
        row: { ...words, end: undefined, binds: fixed(`Not worked out: ${end.message}`, "beyond-use") },
        end: undefined,
      };
    if (lot && compareMoments(lot.end, end) < 0) {
      const text = `lot ${lot.lot} of ${lot.name} ends sooner (${lot.expires}); ${counts}`;
      return { row: { ...words, end: timeSaid(lot.end, place.name), binds: { text, from: lot.from } }, end: lot.end };
    }
    return {
      row: {
        ...words,
        end: timeSaid(end, place.name),
        binds: written(`stated limit; ${counts}`, `recipe ${run.recipe.name.name}`),
      },
      end,
    };
  });
}

/** Hours and minutes are elapsed time, days the local calendar; other times of the calendar are not counted here. */
function endOf(start: Moment, time: MeasureSlot): Moment | DateFault {
  const { quantity } = time;
  const none: DateFault = {
    fault: "no-such-duration",
    text: time.written,
    message: `${time.written} cannot be counted. State hours or days.`,
  };
  if (!quantity?.value.isPositive()) return none;
  const base = inBase(quantity);
  if (quantity.unit.dimension.key === "calendarDays") return beyondUseEnd(start, base.toText(), "day", start.zone);
  if (quantity.unit.dimension.key !== "time") return none;
  const seconds = base.times(Exact.of(3600)).floor();
  return momentAt(instantOf(start) + Number(seconds.toText()), start.zone);
}

function firstToEnd(chosen: ChosenLots, zone: string) {
  let first: { end: Moment; lot: string; name: string; expires: string; from: Said["from"] } | undefined;
  for (const [name, lots] of chosen) {
    for (const { lot, stock, expires } of lots) {
      const end = expires ? endOfExpiry(expires, zone) : undefined;
      if (!end || isDateFault(end) || !expires) continue;
      if (!first || compareMoments(end, first.end) < 0) {
        first = { end, lot, name, expires: expires.text, from: { kind: "shelf", stock, lot } };
      }
    }
  }
  return first;
}

/** `2026-11-26 09:30`. */
export function clockText(m: Moment): string {
  const two = (n: number) => String(n).padStart(2, "0");
  return `${dateText(m.date)} ${two(m.hour)}:${two(m.minute)}`;
}

function timeSaid(m: Moment, place: string): Said {
  return { text: clockText(m), from: { kind: "time", what: `beyond-use at ${place}` } };
}

/** The earliest end of several; what a bar code may say, since it has room for one. */
export function earliest(limits: readonly BeyondUse[]): Moment | undefined {
  if (limits.length === 0 || limits.some((l) => !l.end)) return undefined;
  return limits.map((l) => l.end!).reduce((first, m) => (compareMoments(m, first) < 0 ? m : first));
}
