/**
 * One fault of a whole set is one happening: `open amp` forgotten for two ampoules is one slip, and twenty findings at one word hide
 * the next. Only where every member of the set is in the same case; of some of them each is named.
 */
import { Exact } from "../quantities/exact.ts";
import type { Happening, HappeningKind } from "./happenings.ts";
import type { Thing } from "./things.ts";

/** Kinds that a check tells as they are. What checks reckon with, such as additions, stays one for each container. */
const forSets: ReadonlySet<HappeningKind> = new Set<HappeningKind>([
  "draw-beyond-syringe",
  "too-small-to-measure",
  "syringe-too-full",
  "not-on-graduation",
  "small-dose-dead-space-not-said",
  "not-attached",
  "second-drug-in-syringe",
  "air-not-expelled",
  "checked-with-air",
  "high-alert-hidden-unchecked",
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
  "labelled-twice",
  "reconstituted-otherwise",
  "reconstituted-with-other-fluid",
  "reconstituted-no-powder",
  "displacement-ignored",
  "displacement-negative",
  "gives-and-displacement-differ",
  "container-overfilled",
  "draw-beyond-content",
  "glass-not-filtered",
  "high-alert-added-unchecked",
  "discarded-before-check",
  "preparation-discarded",
  "used-after-discard",
  "vented-spike-in-bag",
]);

/** What a happening speaks of, by the words that the kinds have for it. */
const spokenOf = ["vessel", "target", "thing", "syringe"] as const;

interface OfSet {
  happening: Happening;
  key: (typeof spokenOf)[number];
  thing: Thing;
}

/** Happenings of one kind, in order; those of a whole set stand for it by its name alone. */
export function toldOnce(kind: HappeningKind, happenings: Happening[]): Happening[] {
  if (happenings.length < 2 || !forSets.has(kind)) return happenings;
  const ofSets = happenings.flatMap((happening) => ofSet(happening) ?? []);
  if (ofSets.length === 0) return happenings;
  const kept: Happening[] = [];
  const passed = new Set<Happening>();
  for (const happening of happenings) {
    if (passed.has(happening)) continue;
    const one = ofSets.find((each) => each.happening === happening);
    const alike = one ? ofSets.filter((other) => isAlike(other, one)) : [];
    const members = new Set(alike.map(({ thing }) => thing.index));
    if (!one || members.size < one.thing.of) {
      kept.push(happening);
      continue;
    }
    for (const each of alike) passed.add(each.happening);
    kept.push({ ...happening, data: { ...happening.data, [one.key]: { ...one.thing, of: 1 } } } as Happening);
  }
  return kept;
}

function ofSet(happening: Happening): OfSet | undefined {
  const data = happening.data as Partial<Record<OfSet["key"], Thing>>;
  const key = spokenOf.find((word) => (data[word]?.of ?? 0) > 1);
  const thing = key && data[key];
  return thing && { happening, key, thing };
}

/** Same step, same words, same set, and the same figures beside it. */
function isAlike(other: OfSet, one: OfSet): boolean {
  const [theirs, ours] = [other.happening, one.happening];
  if (theirs.step !== ours.step || theirs.spot.start !== ours.spot.start || theirs.spot.end !== ours.spot.end)
    return false;
  if (other.key !== one.key || other.thing.name !== one.thing.name) return false;
  const [left, right] = [theirs.data, ours.data] as unknown as Record<string, unknown>[];
  const isItself = (key: string) => left![key] === other.thing && right![key] === one.thing;
  return Object.keys(right!).every((key) => isItself(key) || isSame(left![key], right![key]));
}

function isSame(a: unknown, b: unknown): boolean {
  if (Array.isArray(a) && Array.isArray(b)) return a.length === b.length && a.every((each, i) => isSame(each, b[i]));
  return a === b || (a instanceof Exact && b instanceof Exact && a.plain().equals(b.plain()));
}
