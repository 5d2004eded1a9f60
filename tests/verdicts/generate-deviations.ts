/** Deviations from findings that stand, a site's own grades, and what it lets nobody silence. */
import type { Random } from "../oracle/random.ts";
import { known } from "./compare.ts";
import { behindDose, judgedBeforeDeviations } from "./judge.ts";
import { dateOf, dayOf } from "./judge-stock.ts";
import type { Scenario } from "./scenario.ts";

/** Those that stand in the recipe; what stands on the shelf no recipe's deviation reaches. */
const shelfFindings: ReadonlySet<string> = new Set(["lot-expired", "lot-expires-soon", "opened-container-limit"]);

export function deviate(random: Random, scenario: Scenario): void {
  const { site, deviations, asOf } = scenario;
  const verdicts = judgedBeforeDeviations(scenario);
  const told = verdicts.map(({ name }) => name);
  const single = told.filter((name) => !shelfFindings.has(name) && told.filter((each) => each === name).length === 1);
  // What follows from a dose that is wrong itself is not told, and silences nothing.
  if (told.includes("dose-outside-window"))
    single.splice(0, single.length, ...single.filter((name) => !behindDose.has(name)));
  if (told.some((name) => name.startsWith("concentration-") && name.endsWith("-limit")))
    single.splice(0, single.length, ...single.filter((name) => name !== "concentration-unusual"));
  if (random.chance(0.05)) {
    const isLeftOut = (name: string) => behindDose.has(name) || name === "rate-not-settable";
    const absent = [...known].filter(
      (name) => !told.includes(name) && !name.startsWith("deviation-") && !isLeftOut(name),
    );
    deviations.push({ name: random.pick(absent), until: dateOf(dayOf(asOf) + 30) });
  }
  for (const name of new Set(told)) {
    if (random.chance(0.1))
      site.severity.push({ name, grade: random.pick(["error", "warning", "note", "off"] as const) });
  }
  const off = new Set(site.severity.flatMap(({ name, grade }) => (grade === "off" ? [name] : [])));
  for (const name of single) {
    if (off.has(name) || random.chance(0.75)) continue;
    const left = random.pick([0, -1, 1, 100]);
    deviations.push({ name, until: dateOf(dayOf(asOf) + left) });
    if (left >= 0 && random.chance(0.2)) site.neverSilenced.push(name);
  }
  // Of several findings of one name that stand at different steps, one.
  for (const { name, at } of verdicts) {
    const drug = /^(?:inject|draw) (.*)$/.exec(at[0] ?? "")?.[1];
    const alike = verdicts.filter((each) => each.name === name);
    const isAlone = alike.filter((each) => each.at[0] === at[0]).length === 1;
    if (drug === undefined || alike.length < 2 || !isAlone || off.has(name)) continue;
    if (deviations.some((each) => each.name === name) || random.chance(0.5)) continue;
    deviations.push({ name, on: `${drug}-syringe`, until: dateOf(dayOf(asOf) + random.pick([0, 30])) });
  }
  // What stands in the block of the bag.
  for (const deviation of deviations) {
    const { at } = verdicts.find(({ name }) => name === deviation.name) ?? {};
    const isOfBag = at?.every((spot) => spot.startsWith("use-within ") || spot === "preparation");
    if (isOfBag && !deviation.on && random.chance(0.5)) deviation.on = "bag";
  }
}
