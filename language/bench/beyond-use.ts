/**
 * Every limit to how long a finished container may be kept, each with who sets it, and which of them binds: the table of the
 * site's policy, the stability of each drug, the expiry of what goes in, and the in-use limits of opened products. Pure; used by
 * checks, hovers, hints and sheets. It lists and compares; what is done about it is the site's.
 *
 * Sources: tests/reference/practice/beyond-use-dates.json, `bud-min-of-stability-and-table` (the smallest counts, the table is a
 * ceiling), `bud-not-past-component-expiry`, `bud-starts-at-preparation`.
 */
import { type CalendarDate, compareDates, daysBetween, isExpired } from "../model/dates.ts";
import type { Lookup, LotOnShelf } from "../model/lookup.ts";
import type { Policy } from "../model/policy.ts";
import { Exact } from "../quantities/exact.ts";
import { hours } from "../quantities/hours.ts";
import { inUseLimits } from "./opened-products.ts";
import { policyLimits } from "./policy-limits.ts";
import type { Run } from "./run.ts";
import { finished, isLongerTime, judgeRows, type StableRow } from "./stable-rows.ts";
import type { Vessel } from "./things.ts";
import { sourceText, type UseLimit } from "./use-limit.ts";
import { clockStart, timeLeft, waitedSince } from "./waited.ts";

export { makingOf, makingWords, policyLimits, siteEdition } from "./policy-limits.ts";
export type { UseLimit } from "./use-limit.ts";

export interface UseLimits {
  container: string;
  /** Where it is kept, as the author names the place. */
  at: string;
  /** All of them, the shortest first. */
  all: readonly UseLimit[];
  /** The shortest that speaks of the finished container; undefined where nothing limits it by what is known. */
  binding: UseLimit | undefined;
  /** What could not be brought in, each with what to do. */
  open: readonly string[];
}

export interface Surroundings {
  lookup: Lookup;
  policy: Policy;
  asOf: CalendarDate;
}

/** @param at a storage place such as `refrigerator` */
export function useLimits(run: Run, vessel: Vessel, at: string, around: Surroundings): UseLimits {
  const open: string[] = [];
  const all = [
    ...policyLimits(run.recipe, vessel.name, at, around.policy, open),
    ...stabilityLimits(run, vessel, at, open),
    ...expiryLimits(vessel, around, open),
    ...inUseLimits(run, vessel, around.policy),
  ].sort((a, b) => a.hours.compare(b.hours));
  return { container: vessel.name, at, all, binding: all.find((limit) => limit.limits), open };
}

/** For each drug the longest row that holds: each row is evidence up to its own time, so that the longest may be used. */
function stabilityLimits(run: Run, vessel: Vessel, at: string, open: string[]): UseLimit[] {
  const drugs = finished(run).find((each) => each.vessel === vessel)?.drugs ?? [];
  return drugs.flatMap((drug) => {
    if (run.unknown) {
      open.push(`whether ${drug.name.name} is stable is not known, because the figures are not`);
      return [];
    }
    const rows = judgeRows(drug, vessel, at, run).filter((j) => j.misses.length === 0 && !j.unsure);
    const times = rows.flatMap(({ row }) => {
      const stated = row.one("for")?.slots.time;
      const left = stated && timeLeft(stated, waitedSince(row, drug.name.name, vessel, run));
      return left && hours(left.time, 28) ? [{ row, time: left, quantity: left.time }] : [];
    });
    const longest = times.reduce<(typeof times)[number] | undefined>(
      (best, each) => (!best || isLongerTime(each.quantity, best.quantity) ? each : best),
      undefined,
    );
    if (!longest) {
      open.push(`no stability row of ${drug.name.name} holds for this mixture at ${at}`);
      return [];
    }
    const fact = longest.row.one("for")!;
    return [
      {
        kind: "stability" as const,
        name: drug.name.name,
        time: longest.quantity,
        written: longest.time.written,
        hours: hours(longest.quantity, 28)!,
        footing: "declared" as const,
        source: sourceText(fact.source) ?? "no source stated",
        counted: countedFrom(longest.row, drug.name.name, vessel, run),
        onlyIf: undefined,
        limits: true,
        place: { start: fact.start, end: fact.end, chunk: drug.chunk },
      },
    ];
  });
}

/** How long the steps take is not known, so a clock that starts before mixing is counted from its own event. */
function countedFrom(row: StableRow, drug: string, vessel: Vessel, run: Run): string {
  const event = row.one("counted-from")?.slots.event.choice ?? "mixing";
  if (event === "mixing") return "from mixing";
  const step = clockStart(row, drug, vessel, run);
  const where = step ? ` in step ${step.number}` : "";
  return `from ${event}${where}; the time from there to the end of preparation is part of it`;
}

/** The last lot of each stock that may still be used: however lots are chosen, the container cannot last longer. */
function expiryLimits(vessel: Vessel, { lookup, asOf }: Surroundings, open: string[]): UseLimit[] {
  return vessel.liquid.stocks.flatMap((stock) => {
    const usable = lookup
      .lots(stock)
      .filter((lot): lot is LotOnShelf & { expires: object } => !!lot.expires && !isExpired(lot.expires, asOf));
    const last = usable.reduce<(typeof usable)[number] | undefined>(
      (best, lot) => (!best || compareDates(lot.expires.lastDay, best.expires.lastDay) > 0 ? lot : best),
      undefined,
    );
    if (!last) {
      open.push(`no lot of ${stock} that may be used is on the shelf`);
      return [];
    }
    const days = daysBetween(asOf, last.expires.lastDay) + 1;
    return [
      {
        kind: "expiry" as const,
        name: stock,
        time: undefined,
        written: last.expires.text,
        hours: Exact.of(24 * days),
        footing: "declared" as const,
        source: `lot ${last.lot}, the last to expire`,
        counted: "(expiry as printed)",
        onlyIf: undefined,
        limits: true,
        place: last.place,
      },
    ];
  });
}
