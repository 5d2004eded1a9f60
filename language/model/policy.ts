/**
 * The site's decisions with their defaults. Where national guidance differs the site chooses; each default names where it
 * comes from. A default is only used where the site says nothing.
 */

import type { Severity } from "../../shared/finding.ts";
import { Exact } from "../quantities/exact.ts";
import { defaultHouse, type HouseStyle } from "../quantities/notation.ts";
import { inBase, measure, type Quantity } from "../quantities/quantity.ts";
import { alwaysTold } from "./always-told.ts";
import type { Site } from "./declaration.ts";
import { keptWith } from "./kept-with.ts";
import type { MeasureSlot } from "./slots.ts";

export type Cabinet = "horizontal-laminar-flow" | "vertical-laminar-flow" | "containment-cabinet" | "isolator" | "none";

/** By recipe the checks whose errors are not shown, as a baseline lists them: nothing may be left out on their account. */
export type KnownErrors = ReadonlyMap<string, ReadonlySet<string>>;

const noneKnown: KnownErrors = new Map();

export interface Policy {
  cabinet: Cabinet | undefined;
  /** `usp-797-2023` and the category, or undefined. */
  beyondUse: { edition: string; category: string | undefined } | undefined;
  /** Shares (0.05 for 5 %). */
  tolerance: {
    dose: Exact;
    concentration: Exact;
    volume: Exact;
    /** How far the rounding that an order states may move its dose. */
    rounding: Exact;
    /** Undefined unless the site states it. */
    "worst-case": Exact | undefined;
  };
  expiryAheadDays: number;
  timeZone: string;
  monthOnly: "last-day" | "first-day";
  roles: readonly string[];
  house: HouseStyle;
  severities: ReadonlyMap<string, Severity | "off">;
  neverSilenced: ReadonlySet<string>;
  /** Errors that the reader knows of and is not shown; see `KnownErrors`. */
  known: KnownErrors;
  additiveShare: Exact;
  smallestShare: Exact;
  largestShare: Exact;
  needlePunctures: number;
  peripheralOsmolarity: Quantity;
  airForHazardous: Exact;
  equalAirAbove: Exact;
  smallDose: Exact;
  useWithinCounts: "start" | "end";
  /** In mL/h. */
  pumpStep: Exact;
}

/** Where each default comes from; printed by `explain` and in the reference. */
export const policySources: Readonly<Record<string, string>> = {
  tolerance:
    "common practice; finished content within 90 to 110 percent is the wider public standard (USP 35, oxytocin injection monograph)",
  "tolerance rounding":
    "common practice: doses are rounded to what can be measured or to whole products within 5 to 15 percent; a site states its own",
  "expiry-ahead": "common practice",
  "month-only": "USP, restated: month and year alone stand for the last day of the month",
  "additive-share": "What is the 10 percent rule for IV bags? (general web article; quality low)",
  "smallest-share": "Choose the most appropriate syringe (pharmacist letter, 2024): at least 20 percent of capacity",
  "needle-punctures": "common practice: about five punctures",
  "peripheral-osmolarity": "Parenteral nutrition chapter (medical textbook section): 900 mOsm/L",
  "air-for-hazardous": "published ceiling of 75 percent of the volume to be withdrawn",
  "equal-air-above": "common practice: more than a few mL",
  "pump-step": "common practice: infusion pumps are set in steps of 0.1 mL/h",
  "small-dose": "common practice: doses of about 1 mL or less",
};

export function defaultPolicy(): Policy {
  return {
    cabinet: undefined,
    beyondUse: undefined,
    tolerance: {
      dose: Exact.of("0.05"),
      concentration: Exact.of("0.1"),
      volume: Exact.of("0.1"),
      rounding: Exact.of("0.15"),
      "worst-case": undefined,
    },
    expiryAheadDays: 30,
    timeZone: "UTC",
    monthOnly: "last-day",
    roles: ["pharmacist", "technician"],
    house: defaultHouse,
    severities: new Map(),
    neverSilenced: new Set(),
    known: noneKnown,
    additiveShare: Exact.of("0.1"),
    smallestShare: Exact.of("0.2"),
    largestShare: Exact.one,
    needlePunctures: 5,
    peripheralOsmolarity: measure("900 mOsm/L"),
    airForHazardous: Exact.of("0.75"),
    equalAirAbove: Exact.of("3"),
    smallDose: Exact.one,
    useWithinCounts: "start",
    pumpStep: Exact.of("0.1"),
  };
}

const withoutSite = defaultPolicy();
const stated = keptWith(readPolicy);

/** The same object for the same declaration. */
export function policyOf(site: Site | undefined): Policy {
  return site ? stated(site) : withoutSite;
}

function readPolicy(site: Site): Policy {
  const policy = defaultPolicy();
  const { facts } = site;
  const base = (slot: MeasureSlot | undefined, otherwise: Exact) =>
    slot?.quantity ? inBase(slot.quantity) : otherwise;
  policy.cabinet = facts.one("cabinet")?.slots.kind.choice;
  const edition = facts.one("beyond-use")?.slots;
  if (edition)
    policy.beyondUse = {
      edition: edition.edition.name,
      category: edition.category?.written ?? edition.level?.name,
    };
  for (const { slots } of facts.all("tolerance")) {
    const share = slots.share.quantity;
    if (share) policy.tolerance[slots.of.choice] = inBase(share);
  }
  const ahead = facts.one("expiry-ahead")?.slots.time.quantity;
  if (ahead) policy.expiryAheadDays = daysIn(ahead) ?? policy.expiryAheadDays;
  policy.timeZone = facts.one("time-zone")?.slots.zone.text ?? policy.timeZone;
  policy.monthOnly = facts.one("month-only")?.slots.reading.choice ?? policy.monthOnly;
  const roles = facts.all("role").map((f) => f.slots.name.name);
  if (roles.length > 0) policy.roles = roles;
  policy.house = houseOf(site);
  const graded = facts.all("severity").filter((f) => !alwaysTold.has(f.slots.check.name));
  policy.severities = new Map(graded.map((f) => [f.slots.check.name, f.slots.level.choice]));
  policy.neverSilenced = new Set(facts.all("never-silenced").map((f) => f.slots.check.name));
  policy.additiveShare = base(facts.one("additive-share")?.slots.share, policy.additiveShare);
  policy.smallestShare = base(facts.one("smallest-share")?.slots.share, policy.smallestShare);
  policy.largestShare = base(facts.one("largest-share")?.slots.share, policy.largestShare);
  const punctures = facts.one("needle-punctures")?.slots.count.value;
  if (punctures?.isWhole()) policy.needlePunctures = Number(punctures.toText());
  policy.peripheralOsmolarity = facts.one("peripheral-osmolarity")?.slots.limit.quantity ?? policy.peripheralOsmolarity;
  policy.airForHazardous = base(facts.one("air-for-hazardous")?.slots.share, policy.airForHazardous);
  policy.equalAirAbove = base(facts.one("equal-air-above")?.slots.volume, policy.equalAirAbove);
  policy.smallDose = base(facts.one("small-dose")?.slots.volume, policy.smallDose);
  const step = facts.one("pump-step")?.slots.step;
  if (step?.quantity?.unit.dimension.key === "volume/time" && step.quantity.value.isPositive())
    policy.pumpStep = base(step, policy.pumpStep);
  policy.useWithinCounts = facts.one("use-within-counts")?.slots.end.choice ?? policy.useWithinCounts;
  return policy;
}

/** Whole days in a time such as `30 days` or `48 h`; undefined for another dimension. */
export function daysIn(time: Quantity): number | undefined {
  const days: Readonly<Record<string, string>> = {
    day: "1",
    days: "1",
    week: "7",
    weeks: "7",
    month: "30",
    months: "30",
  };
  const perUnit = days[time.unit.spelling];
  if (perUnit) return Number(time.value.times(Exact.of(perUnit)).ceil().toText());
  if (time.unit.spelling === "h") return Number(time.value.over(Exact.of(24)).ceil().toText());
  return undefined;
}

function houseOf(site: Site): HouseStyle {
  const { facts } = site;
  return {
    ...defaultHouse,
    microgram: facts.one("microgram")?.slots.style.choice ?? defaultHouse.microgram,
    activity: facts.one("activity")?.slots.style.choice ?? defaultHouse.activity,
    thousands: facts.one("thousands")?.slots.style.choice ?? defaultHouse.thousands,
    decimals: facts.one("decimals")?.slots.style.choice ?? defaultHouse.decimals,
    smallDecimals: facts.one("small-decimals")?.slots.style.choice ?? defaultHouse.smallDecimals,
  };
}
