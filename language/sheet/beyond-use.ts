/**
 * When a preparation ends: for each storage place the stated limit counted from the time of preparation, and never later than the
 * end of the expiry of a lot that goes in; beside it every limit that is known, so that the reader sees what binds. Source of the second rule: practice/expiry.json, "the beyond-use moment is compared
 * with the end of the expiry day of every component".
 */

import { type Surroundings, type UseLimit, type UseLimits, useLimits } from "../bench/beyond-use.ts";
import { rowsAt } from "../bench/order-rows.ts";
import type { Run } from "../bench/run.ts";
import { compareDates, type DateFault, dateText, daysBetween, isDateFault, isExpired } from "../model/dates.ts";
import type { Named } from "../model/declaration.ts";
import type { preparationFacts } from "../model/declarations/recipe.ts";
import { beyondUseEnd, compareMoments, endOfExpiry, instantOf, type Moment, momentAt } from "../model/moments.ts";
import type { MeasureSlot } from "../model/slots.ts";
import { Exact } from "../quantities/exact.ts";
import { inBase, type Quantity, showQuantity } from "../quantities/quantity.ts";
import { alike } from "../working/contents.ts";
import { finishGiving } from "./finish-giving.ts";
import type { ChosenLots } from "./materials.ts";
import { spaced } from "./printed-names.ts";
import { inPrintedNames } from "./product.ts";
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
  around: Surroundings,
): BeyondUse[] {
  const lot = firstToEnd(run, chosen, around, start.zone);
  const vessel = alike(run).find((kind) => kind.name === preparation.name.name)?.vessel;
  const counts =
    around.policy.useWithinCounts === "end" ? "giving must be finished by then" : "giving must begin by then";
  return rowsAt(preparation.facts.all("use-within"), run).map((fact) => {
    const { time, place } = fact.slots;
    const limits = vessel && ofChosenLots(useLimits(run, vessel, place.name, around), chosen, around);
    const words = {
      place: written(spaced(place.name), `recipe ${run.recipe.name.name}`),
      limit: written(time.written, `recipe ${run.recipe.name.name}`),
      known: limits ? limitsKnown(run, limits, preparation.name.name, around) : [],
    };
    /** The row of a limit that ends so, and what giving must be besides begun by then. */
    const ending = (end: Moment, binds: Said): BeyondUse => {
      const row = { ...words, end: timeSaid(end, place.name), binds };
      const finish =
        vessel && limits && around.policy.useWithinCounts === "start"
          ? finishGiving(run, vessel, limits.all, end, (time) => momentAfter(start, time))
          : undefined;
      if (!finish) return { row, end };
      const by = clockText(finish.by);
      const drug = inPrintedNames(finish.drug, around.lookup, run.groups);
      const text = `${binds.text} and be finished by ${by}, when ${drug} is no longer known to be stable`;
      const said = { text: by, from: { kind: "time", what: `end of giving at ${place.name}` } } as const;
      return { row: { ...row, binds: { ...binds, text }, finish: said }, end };
    };
    const end = stated(start, time);
    if (isDateFault(end))
      return {
        row: { ...words, end: undefined, binds: fixed(`Not worked out: ${end.message}`, "beyond-use") },
        end: undefined,
      };
    if (lot && compareMoments(lot.end, end) < 0) {
      const text = `${lot.words} ends sooner (${lot.expires}); ${counts}`;
      return ending(lot.end, { text, from: lot.from });
    }
    return ending(end, written(`stated limit; ${counts}`, `recipe ${run.recipe.name.name}`));
  });
}

/** What limits the finished container; limits of opened products are told where those are used. */
function limitsKnown(
  run: Run,
  { all, binding, open, at }: UseLimits,
  container: string,
  { lookup }: Surroundings,
): BeyondUseRow["known"] {
  const from = { kind: "working", figure: `use-within ${container} ${at}` } as const;
  const said = (text: string): Said => ({ text: inPrintedNames(text, lookup, run.groups), from });
  const limits = togetherWhereAlike(all.filter((l) => l.limits)).map((each) => ({
    said: said(limitText(each)),
    binds: binding !== undefined && each.includes(binding),
  }));
  return [...limits, ...open.map((reason) => ({ said: said(`Not known: ${reason}.`), binds: false }))];
}

/** The lot in hand limits, not another one on the shelf that lasts longer. */
function ofChosenLots(known: UseLimits, chosen: ChosenLots, { asOf }: Surroundings): UseLimits {
  const lots = [...chosen.values()].flat();
  const all = known.all.map((limit): UseLimit => {
    if (limit.kind !== "expiry") return limit;
    const own = lots.flatMap((lot) =>
      lot.stock === limit.name && lot.expires ? [{ ...lot, expires: lot.expires }] : [],
    );
    const [first, ...rest] = own;
    if (!first) return limit;
    const { lot, expires } = rest.reduce(
      (least, each) => (compareDates(each.expires.lastDay, least.expires.lastDay) < 0 ? each : least),
      first,
    );
    const hours = Exact.of(24 * (daysBetween(asOf, expires.lastDay) + 1));
    return { ...limit, written: expires.text, hours, source: `lot ${lot}, as taken` };
  });
  all.sort((a, b) => a.hours.compare(b.hours));
  return { ...known, all, binding: all.find((limit) => limit.limits) };
}

/** A dozen drugs that allow the same time are one line. */
function togetherWhereAlike(limits: readonly UseLimit[]): UseLimit[][] {
  const lines = new Map<string, UseLimit[]>();
  for (const limit of limits) {
    const key = [limit.kind, limit.written, limit.counted, limit.onlyIf].join("|");
    lines.set(key, [...(lines.get(key) ?? []), limit]);
  }
  return [...lines.values()];
}

function limitText(alike: readonly UseLimit[]): string {
  const [{ written: time, counted, onlyIf }] = alike as [UseLimit, ...UseLimit[]];
  const only = onlyIf ? `, only if ${onlyIf}` : "";
  const sources = new Map<string, string[]>();
  for (const limit of alike) sources.set(sourceOf(limit), [...(sources.get(sourceOf(limit)) ?? []), namedBy(limit)]);
  const isLot = alike.every((limit) => limit.kind === "expiry");
  const by = [...sources].map(([source, names]) =>
    isLot ? `${names.join(", ")}${only}, ${source}` : `${names.join(", ")}${only} (${source})`,
  );
  return `${time} ${counted}, by ${by.join("; ")}`;
}

/** The edition's own name stands in full beside its category. */
function namedBy({ kind, name }: UseLimit): string {
  return kind === "policy" ? (/ (category \d+)$/.exec(name)?.[1] ?? "the table of the site") : name;
}

function sourceOf({ source, footing }: UseLimit): string {
  const isTold = /memory|recalled/.test(source);
  return `${source}${footing === "recalled" && !isTold ? "; from memory, not seen in the text" : ""}`;
}

/** Hours and minutes are elapsed time, days and months the local calendar. */
function stated(start: Moment, { quantity, written: text }: MeasureSlot): Moment | DateFault {
  return quantity ? momentAfter(start, quantity, text) : notCounted(text);
}

function notCounted(text: string): DateFault {
  return {
    fault: "no-such-duration",
    text,
    message: `${text} cannot be counted. State hours, days or months.`,
  };
}

function momentAfter(start: Moment, quantity: Quantity, text = showQuantity(quantity)): Moment | DateFault {
  const none = notCounted(text);
  if (!quantity.value.isPositive()) return none;
  const base = inBase(quantity);
  if (quantity.unit.dimension.key === "calendarDays") return beyondUseEnd(start, base.toText(), "day", start.zone);
  if (quantity.unit.dimension.key === "calendarMonths") return beyondUseEnd(start, base.toText(), "month", start.zone);
  if (quantity.unit.dimension.key !== "time") return none;
  const seconds = base.times(Exact.of(3600)).floor();
  return momentAt(instantOf(start) + Number(seconds.toText()), start.zone);
}

interface LotEnd {
  end: Moment;
  words: string;
  expires: string;
  from: Said["from"];
}

/**
 * The lot that ends first: of a material whose lots were chosen the earliest of them, of any other the last that may still be used,
 * since whichever is taken, the container cannot last longer.
 */
function firstToEnd(run: Run, chosen: ChosenLots, { lookup, asOf }: Surroundings, zone: string): LotEnd | undefined {
  const candidates: LotEnd[] = [];
  for (const { name, item } of run.groups.values()) {
    if (item?.kind !== "stock") continue;
    const own = chosen.get(name);
    const lots = own ?? lookup.lots(item.name.name).filter((l) => l.expires && !isExpired(l.expires, asOf));
    const ends = lots.flatMap(({ lot, stock, expires }): LotEnd[] => {
      const end = expires && endOfExpiry(expires, zone);
      if (!end || isDateFault(end)) return [];
      const words = own ? `lot ${lot} of ${name}` : `the last lot of ${name} in date, ${lot},`;
      return [{ end, words, expires: expires.text, from: { kind: "shelf", stock, lot } }];
    });
    const [first, ...rest] = ends.sort((a, b) => compareMoments(a.end, b.end));
    const decides = own ? first : (rest.at(-1) ?? first);
    if (decides) candidates.push(decides);
  }
  return candidates.sort((a, b) => compareMoments(a.end, b.end))[0];
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
