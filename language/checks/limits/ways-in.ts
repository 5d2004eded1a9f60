/** By which way a route and a dosage form reach a patient, as far as their names tell. */
import { remembered } from "../../quantities/remembered.ts";
import { isGuarded } from "./guarded-routes.ts";
import { routeMeant } from "./route-words.ts";

/** Through a needle or catheter into the body; swallowed; and so on. */
export type WayIn =
  | "injected"
  | "swallowed"
  | "eye"
  | "ear"
  | "nose"
  | "skin"
  | "breathed"
  | "rectum"
  | "irrigation"
  | "instilled";

const routes: Readonly<Record<WayIn, string>> = {
  injected:
    "intravenous intraarterial intra-arterial intramuscular subcutaneous intradermal intraosseous intraperitoneal intraarticular " +
    "intra-articular intralesional intrapleural perineural",
  swallowed: "oral by-mouth peroral enteral nasogastric gastrostomy sublingual buccal",
  eye: "ocular ophthalmic conjunctival",
  ear: "otic auricular aural",
  nose: "nasal intranasal",
  skin: "topical cutaneous dermal transdermal",
  breathed: "inhalation inhaled nebulised nebulized",
  rectum: "rectal",
  irrigation:
    "irrigation bladder-irrigation wound-irrigation surgical-irrigation joint-irrigation pleural-irrigation peritoneal-irrigation",
  // Through a catheter, and left there for a time.
  instilled: "intravesical bladder-instillation intraurethral",
};

/** Words of a dosage form, the more telling first: an eye ointment is for the eye. */
const forms: readonly (readonly [WayIn, string])[] = [
  ["eye", "eye ophthalmic"],
  ["ear", "ear otic"],
  ["nose", "nasal"],
  ["swallowed", "oral mouthwash syrup elixir tablet tablets capsule capsules"],
  ["breathed", "inhalation inhaler nebuliser nebulizer nebulised nebulized"],
  ["rectum", "suppository suppositories enema rectal"],
  ["irrigation", "irrigation"],
  ["instilled", "bladder instillation intravesical intraurethral"],
  ["skin", "cream ointment gel lotion topical cutaneous"],
];

const wayOfRoute = new Map(
  [...wordMap(Object.entries(routes) as [WayIn, string][])].map(([route, way]) => [routeMeant(route), way]),
);
const wayOfForm = wordMap(forms);

function wordMap(each: readonly (readonly [WayIn, string])[]): ReadonlyMap<string, WayIn> {
  return new Map(each.flatMap(([way, words]) => words.split(" ").map((word): [string, WayIn] => [word, way])));
}

/** Undefined for a route that is not known here. */
export function wayIn(route: string): WayIn | undefined {
  return isGuarded(route) ? "injected" : wayOfRoute.get(routeMeant(route));
}

/** Fluids for irrigation are made for what is left in the bladder too. */
export function isSameWay(one: WayIn, other: WayIn): boolean {
  return one === other || [one, other].sort().join() === "instilled,irrigation";
}

interface Told {
  way: { way: WayIn; word: string } | undefined;
  depot: string | undefined;
}

/** One name of a product stands in hundreds of recipes. */
const told = remembered((name: string): Told => {
  const words = name.split("-");
  const depot = words.find((word) => word === "depot" || word === "oily");
  for (const [way] of forms) {
    const word = words.find((each) => wayOfForm.get(each) === way);
    if (word !== undefined) return { way: { way, word }, depot };
  }
  return { way: undefined, depot };
});

/** What a dosage form or the name of a product tells: `morphine-oral-solution`. */
export function wayOfProduct(name: string): { way: WayIn; word: string } | undefined {
  return told(name).way;
}

/** `solution-for-infusion`, `emulsion-for-injection`. */
export function isForInjection(form: string): boolean {
  return form.split("-").some((word) => word === "injection" || word === "infusion");
}

/** The route that a form for injection names: `intrathecal-injection`, `solution-for-intramuscular-injection`. */
export function routeOfForm(form: string): string | undefined {
  // Short forms (`it`, `im`, `vein`) are words of other names too.
  const word = form.split("-").find((each) => each.length > 5 && wayIn(each) === "injected");
  return word === undefined ? undefined : routeMeant(word);
}

/** Oily and slowly dissolving products are for muscle or skin: in a vein they close vessels, at the nerve they stay. */
export function depotWord(name: string): string | undefined {
  return told(name).depot;
}

/** Where a depot is put. */
export const depotRoutes: ReadonlySet<string> = new Set([
  "intramuscular",
  "subcutaneous",
  "intralesional",
  "intra-articular",
  "intraarticular",
]);
