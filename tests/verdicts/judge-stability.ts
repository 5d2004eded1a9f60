/**
 * What a preparation may touch, be filtered through and how long it is kept. From tests/spec/beyond-use.md, tests/spec/products.md and
 * language/LANGUAGE.md: only a stability row that is met in every condition clears, the longest of these counts, and the table of the
 * site's edition is a ceiling beside it.
 */
import { Fraction } from "../oracle/fraction.ts";
import { counted, heldOf, inHours, ionHeld, mayBeLonger, size, volumeOf } from "./amounts.ts";
import { hoursOfGiving, isWithin } from "./judge-limits.ts";
import type { Monograph, Place, Pore, Scenario, StableRow, Time, Verdict } from "./scenario.ts";

export const stabilityVerdicts = (scenario: Scenario): Verdict[] => [
  ...keptVerdicts(scenario),
  ...policyVerdicts(scenario),
  ...meetingVerdicts(scenario),
  ...togetherVerdicts(scenario),
  ...lightVerdicts(scenario),
  ...scenario.drugs.flatMap((drug) => [
    ...materialVerdicts(scenario, drug),
    ...filterVerdicts(scenario, drug),
    ...inLineVerdicts(scenario, drug),
  ]),
];

/** The cover that is missing is told once, whoever needs it. */
function lightVerdicts({ drugs, covered }: Scenario): Verdict[] {
  const isMissing = !covered && drugs.some(({ light }) => light === "protect-always");
  return isMissing ? [{ name: "light-protection-missing", at: ["preparation"] }] : [];
}

/** Hours that have gone since a drug came into the bag when the bag is finished. */
function hoursGone({ additives }: Scenario, drug: string): Fraction {
  return additives
    .slice(additives.findIndex((each) => each.drug === drug) + 1)
    .flatMap(({ waitBefore, again }) => [waitBefore, again])
    .concat(additives.find((each) => each.drug === drug)!.again)
    .reduce((sum, wait) => (wait ? sum.plus(inHours(wait)) : sum), Fraction.zero);
}

function fits(scenario: Scenario, drug: string, row: StableRow, at: Place): boolean {
  const { fluid, bag, covered } = scenario;
  // From the opening of its own pack on a product is studied as it is, not in a mixture.
  if (row.countedFrom === "opening") return false;
  if (row.in !== "any" && row.in !== fluid.name) return false;
  if (row.at !== "any" && row.at !== at) return false;
  if (row.madeOf !== "any" && row.madeOf !== bag.madeOf) return false;
  if (row.light === "protected" && !covered) return false;
  if (!row.concentration) return true;
  const [top = "", below = ""] = row.concentration.unit.split("/");
  const held = { drug: heldOf(scenario, drug), ion: () => Fraction.zero };
  const value = counted(scenario, drug, held, { unit: top, ...(row.as ? { as: row.as } : {}) })!;
  return isWithin(row.concentration, value.over(volumeOf(scenario).over(size(below))));
}

function keptVerdicts(scenario: Scenario): Verdict[] {
  const found: Verdict[] = [];
  for (const { time, at } of scenario.useWithin) {
    let isTooLong = false;
    for (const { fact, stable } of scenario.drugs) {
      const rows = stable.filter((row) => fits(scenario, fact.name, row, at));
      const gone = hoursGone(scenario, fact.name);
      if (rows.length === 0) found.push({ name: "stability-not-covered", at: [`use-within ${at}`] });
      else isTooLong ||= rows.every((row) => mayBeLonger(time, row.for, gone));
    }
    // One limit is too long once, whichever drug says so.
    if (isTooLong) found.push({ name: "use-within-longer-than-stability", at: [`use-within ${at}`] });
  }
  return found;
}

/** Wis. Phar 15.37 by category, sterility test and place; one week of the UK Section 10 exemption wherever it is kept. */
function ceiling({ site, tested }: Scenario, at: Place): Time | undefined {
  const cold = at === "refrigerator";
  if (site.edition === "uk-section-10") return { number: 7, unit: "days" };
  if (site.category === 1) return { number: cold ? 24 : 12, unit: "h" };
  if (tested) return cold ? undefined : { number: 30, unit: "days" };
  return { number: cold ? 10 : 4, unit: "days" };
}

function policyVerdicts(scenario: Scenario): Verdict[] {
  return scenario.useWithin
    .filter(({ time, at }) => {
      const most = ceiling(scenario, at);
      return most !== undefined && mayBeLonger(time, most);
    })
    .map(({ at }) => ({ name: "use-within-longer-than-policy", at: [`use-within ${at}`] }));
}

/** Each drug meets the fluid and every drug that is in already, at the step that brings it in. */
function meetingVerdicts({ drugs, additives, fluid }: Scenario): Verdict[] {
  const found: Verdict[] = [];
  const monograph = (name: string) => drugs.find(({ fact }) => fact.name === name)!;
  additives.forEach(({ drug }, i) => {
    const at = [`inject ${drug}`];
    const own = monograph(drug);
    if (own.incompatible.includes(fluid.name)) found.push({ name: "diluent-incompatible", at });
    else if (!own.compatible.includes(fluid.name)) found.push({ name: "compatibility-not-declared", at });
    for (const { drug: earlier } of additives.slice(0, i)) {
      const other = monograph(earlier);
      const says = (list: "compatible" | "incompatible") => own[list].includes(earlier) || other[list].includes(drug);
      if (says("incompatible")) found.push({ name: "drugs-incompatible", at });
      else if (!says("compatible")) found.push({ name: "compatibility-not-declared", at });
      // The one that has to be there before comes in behind.
      if (own.addedBefore.includes(earlier)) found.push({ name: "added-in-wrong-order", at });
    }
  });
  return found;
}

/** Each injection with what is in the bag after it of every additive. */
function additionsOf({ additives }: Scenario): { spot: string; volumes: Fraction[] }[] {
  const volumes = additives.map(() => Fraction.zero);
  return additives.flatMap(({ drug, volume, again }, i) =>
    (again ? ["inject", "inject again"] : ["inject"]).map((word) => {
      volumes[i] = volumes[i]!.plus(again ? volume.over(Fraction.of(2)) : volume);
      return { spot: `${word} ${drug}`, volumes: [...volumes] };
    }),
  );
}

/** Judged whenever one of the two ions is added, at the volume that is there then; each row clears what lies within both. */
function togetherVerdicts(scenario: Scenario): Verdict[] {
  const rows = scenario.drugs.flatMap(({ together }) => together);
  const pairs = new Map<string, typeof rows>();
  for (const row of rows) {
    const key = [row.one, row.other].sort().join("|");
    pairs.set(key, [...(pairs.get(key) ?? []), row]);
  }
  const found: Verdict[] = [];
  const told = new Set<string>();
  for (const [pair, own] of pairs) {
    const [first = "", second = ""] = pair.split("|");
    additionsOf(scenario).forEach(({ spot, volumes }, i, all) => {
      const litres = volumes
        .reduce((sum, volume) => sum.plus(volume), scenario.bag.fill!.value)
        .over(Fraction.of(1000));
      const before = i === 0 ? volumes.map(() => Fraction.zero) : all[i - 1]!.volumes;
      const brings = (ion: string) => !ionHeld(scenario, ion, volumes).is(ionHeld(scenario, ion, before));
      const held = (ion: string) => ionHeld(scenario, ion, volumes).over(litres);
      if (!(brings(first) || brings(second)) || held(first).isZero || held(second).isZero) return;
      const clears = own.some(
        ({ one, upTo, other, otherUpTo }) => held(one).against(upTo) <= 0 && held(other).against(otherUpTo) <= 0,
      );
      // Two ions that are beyond it stay so; told where they first are.
      if (!clears && !told.has(pair)) found.push({ name: "ions-beyond-solubility", at: [spot] });
      if (!clears) told.add(pair);
    });
  }
  return found;
}

function materialVerdicts(scenario: Scenario, { materials }: Monograph): Verdict[] {
  const { bag } = scenario;
  const unsuitable = materials.filter(({ suits }) => !suits);
  if (unsuitable.length === 0) return [];
  // What is titrated has no time of its own.
  const hours = scenario.order.over || !scenario.order.use.startsWith("titrated") ? hoursOfGiving(scenario) : undefined;
  const at = [`material ${bag.name}`];
  if (!bag.madeOf) return [{ name: "container-material-not-stated", at }];
  const speaks = unsuitable.filter(({ material }) => material === bag.madeOf);
  return speaks.some(({ over }) => !over || !hours || hours.against(inHours(over)) > 0)
    ? [{ name: "container-material-unsuitable", at }]
    : [];
}

const isFiner = (a: string, b: string): boolean => Fraction.of(a).against(Fraction.of(b)) < 0;

/** What a filter on the way must be, or must not be; what is too fine on the one is too fine on the other. */
function filterVerdicts({ additives }: Scenario, { fact, filter, inLine }: Monograph): Verdict[] {
  const { filter: own, again } = additives.find(({ drug }) => drug === fact.name)!;
  // The second half comes through the needle.
  return [
    ...(isMissing(filter, again ? undefined : own) ? [{ name: "filter-required-missing", at: ["preparation"] }] : []),
    ...(isForbidden([filter, inLine?.micrometres ? inLine : undefined], own)
      ? [{ name: "filter-forbidden", at: [`draw ${fact.name}`] }]
      : []),
  ];
}

function inLineVerdicts({ order }: Scenario, { filter, inLine }: Monograph): Verdict[] {
  const { inLineFilter: own } = order;
  return [
    ...(isMissing(inLine, own)
      ? [{ name: "in-line-filter-missing", at: [own === undefined ? "route" : "in-line-filter"] }]
      : []),
    ...(isForbidden([filter, inLine], own) ? [{ name: "in-line-filter-forbidden", at: ["in-line-filter"] }] : []),
  ];
}

function isMissing(rule: Pore | undefined, own: string | undefined): boolean {
  if (rule?.rule !== "required") return false;
  return own === undefined || (rule.micrometres !== undefined && isFiner(rule.micrometres, own));
}

function isForbidden(rules: readonly (Pore | undefined)[], own: string | undefined): boolean {
  return rules.some(
    (rule) =>
      rule?.rule === "never" && own !== undefined && (rule.micrometres === undefined || isFiner(own, rule.micrometres)),
  );
}
