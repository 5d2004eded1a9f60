/**
 * One fault of a whole set is one happening: `open amp` forgotten for two ampoules is one slip, and twenty findings at one word hide
 * the next. Only where every member of the set is in the same case; of some of them each is named.
 */
import { Exact } from "../quantities/exact.ts";
import type { Happening, HappeningKind } from "./happenings.ts";
import type { Vessel } from "./things.ts";

/** Kinds that a check tells as they are. What checks reckon with, such as additions, stays one for each container. */
const forSets: ReadonlySet<HappeningKind> = new Set<HappeningKind>([
  "ampoule-not-opened",
  "opened-not-ampoule",
  "ampoule-not-disinfected",
  "ampoule-not-tapped",
  "opened-twice",
  "entry-not-disinfected",
  "air-into-ampoule",
  "no-equal-air",
  "vial-under-pressure",
  "hazardous-equal-air",
  "returned-to-stock",
  "drawn-before-dissolved",
  "drawn-before-mixed",
  "added-before-mixed",
  "left-unmixed",
  "shaken",
  "swirled-nothing",
  "added-to-premixed",
  "touched-after-seal",
  "labelled-before-filled",
  "reconstituted-otherwise",
  "reconstituted-with-other-fluid",
  "reconstituted-no-powder",
  "displacement-ignored",
  "displacement-negative",
  "gives-and-displacement-differ",
]);

type WithVessel = Happening & { data: { vessel: Vessel } };

/** Happenings of one kind, in order; those of a whole set stand for it by its name alone. */
export function toldOnce(kind: HappeningKind, happenings: Happening[]): Happening[] {
  if (happenings.length < 2 || !forSets.has(kind) || !happenings.some(isOfSet)) return happenings;
  const kept: Happening[] = [];
  const passed = new Set<Happening>();
  for (const happening of happenings) {
    if (passed.has(happening)) continue;
    const alike = isOfSet(happening) ? happenings.filter((other) => isAlike(other, happening)) : [];
    const members = new Set((alike as WithVessel[]).map((h) => h.data.vessel.index));
    if (!isOfSet(happening) || members.size < happening.data.vessel.of) {
      kept.push(happening);
      continue;
    }
    for (const each of alike) passed.add(each);
    kept.push({ ...happening, data: { ...happening.data, vessel: { ...happening.data.vessel, of: 1 } } } as Happening);
  }
  return kept;
}

function isOfSet(happening: Happening): happening is WithVessel {
  const { vessel } = happening.data as { vessel?: Vessel };
  return vessel !== undefined && vessel.of > 1;
}

/** Same step, same words, same set, and the same figures beside it. */
function isAlike(other: Happening, one: WithVessel): boolean {
  if (other.step !== one.step || other.spot.start !== one.spot.start || other.spot.end !== one.spot.end) return false;
  if (!isOfSet(other) || other.data.vessel.name !== one.data.vessel.name) return false;
  const [left, right] = [other.data, one.data] as unknown as Record<string, unknown>[];
  return Object.keys(right!).every((key) => key === "vessel" || isSame(left![key], right![key]));
}

function isSame(a: unknown, b: unknown): boolean {
  return a === b || (a instanceof Exact && b instanceof Exact && a.plain().equals(b.plain()));
}
