import type { Run } from "../../bench/run.ts";
import { allOf } from "../../bench/spoken.ts";
import type { Drug } from "../../model/declaration.ts";
import type { Spot } from "../../model/slots.ts";
import { recipeCheck } from "../check.ts";
import { example } from "../example.ts";
import { isGuarded } from "./guarded-routes.ts";
import { isSameRoute } from "./route-words.ts";

export const routeNotInMonograph = recipeCheck<{ at: Spot; route: string; silent: { drug: Drug; known: string[] }[] }>({
  name: "route-not-in-monograph",
  family: "limits",
  severity: "warning",
  title: "A drug by a route of which its monograph says nothing",
  why: "A route that nobody wrote limits for may be a slip, and some drugs kill by the wrong route.",
  source: "common practice",
  bad: example([
    "    route           intravenous\n    access          peripheral\n    infuse-over     4 h\n",
    "    route           subcutaneous\n",
  ]),
  good: example(),
  *find({ recipe, run }) {
    const route = recipe.order?.one("route");
    const name = route?.slots.route.name;
    if (!route || !name || isGuarded(name)) return;
    const silent = drugsGiven(run)
      .filter((drug) => isSilentOn(drug, name))
      .map((drug) => ({ drug, known: allowedRoutes(drug) }));
    if (silent.length > 0) yield { at: route, route: name, silent };
  },
  say: ({ route, silent }) => ({
    text: `The order is ${route}; ${said(silent)}. Correct the route, or add what holds for it with its source, as \`concentration LIMITS for route ${route}\`.`,
    related: silent.map(({ drug }) => ({
      at: { start: drug.head.start, end: drug.head.end, chunk: drug.chunk },
      text: "the monograph",
    })),
  }),
});

/** Drugs whose monographs speak of the same routes are named together. */
function said(silent: readonly { drug: Drug; known: string[] }[]): string {
  const named = new Map<string, string[]>();
  for (const { drug, known } of silent) {
    const routes = known.length > 0 ? `of ${known.join(", ")} only` : "of no route by which it may be given";
    named.set(routes, [...(named.get(routes) ?? []), drug.name.name]);
  }
  return [...named]
    .map(([routes, drugs]) =>
      drugs.length > 1
        ? `the monographs of ${allOf(drugs)} speak ${routes}`
        : `the monograph of ${drugs[0]} speaks ${routes}`,
    )
    .join("; ");
}

/** The drugs that are ordered, or that a finished container holds. */
export function drugsGiven({ doses, setup, finals }: Run): Drug[] {
  const given = new Set([...doses.map(({ drug }) => drug), ...finals.flatMap(({ liquid }) => liquid.drugs)]);
  return [...setup.drugs].filter(([name]) => given.has(name)).map(([, drug]) => drug);
}

/** The monograph names routes, and this is none of them. */
export function isSilentOn(drug: Drug, route: string): boolean {
  const known = routesOf(drug);
  return known.length > 0 && !known.some((each) => isSameRoute(each, route));
}

/** Routes that a limit or a dose of the monograph names: a ban is no word for a route. */
function allowedRoutes({ facts }: Drug): string[] {
  const rows = [
    ...facts.all("dose"),
    ...facts.all("concentration"),
    ...facts.all("usual-concentration"),
    ...facts.all("rate"),
  ].map((f) => (f.slots as { route?: { name: string } }).route?.name);
  return [...new Set(rows.filter((r) => r !== undefined))];
}

/** Routes that a limit, a dose or a ban of the monograph names. */
export function routesOf(drug: Drug): string[] {
  const banned = drug.facts.all("never").map((f) => f.slots.route.name);
  return [...new Set([...allowedRoutes(drug), ...banned])];
}
