import type { Run } from "../../bench/run.ts";
import { allOf } from "../../bench/spoken.ts";
import type { Drug, Recipe } from "../../model/declaration.ts";
import { recipeCheck } from "../check.ts";
import { example } from "../example.ts";
import { isGuarded } from "./guarded-routes.ts";
import { drugsGiven, routesOf } from "./route-not-in-monograph.ts";
import { isSameRoute } from "./route-words.ts";

const vein = "    route           intravenous\n    access          peripheral\n    infuse-over     4 h\n";
const spine = "    route           intrathecal\n";
const dose = "  dose           from 500 mg up to 10 g for any route\n";

const unpreserved: [string, string][] = ["strength   500 mg/mL\n", "made-of    polyolefin\n"].map((line) => [
  line,
  `${line}  preservative  none\n`,
]);

export const guardedRouteNotInMonograph = recipeCheck({
  name: "guarded-route-not-in-monograph",
  family: "limits",
  severity: "error",
  title: "A drug into spine, brain or eye whose monograph does not name that route",
  why: "Drugs for the vein have killed in the spinal canal; limits for any route do not speak of it.",
  source: "from memory: published warnings against the wrong route",
  bad: example([vein, spine], ...unpreserved),
  good: example([vein, spine], ...unpreserved, [dose, `${dose}  dose           up to 4 g for route intrathecal\n`]),
  *find({ recipe, run }) {
    const route = recipe.order?.one("route");
    const name = route?.slots.route.name;
    if (!route || !name) return;
    const drugs = drugsNotForIt(recipe, run);
    if (drugs.length > 0) yield { at: route, route: name, drugs };
  },
  say: ({ route, drugs }) => ({
    text: `The order is ${route}, and the ${drugs.length > 1 ? "monographs" : "monograph"} of ${allOf(drugs.map((drug) => drug.name.name))} ${drugs.length > 1 ? "do" : "does"} not name that route. Correct the route, or state a dose or limit for route ${route} with its source.`,
    related: drugs.map((drug) => ({
      at: { start: drug.head.start, end: drug.head.end, chunk: drug.chunk },
      text: "the monograph",
    })),
  }),
});

/** The drugs that are ordered or given by a guarded route of which their monographs say nothing. */
export function drugsNotForIt(recipe: Recipe, run: Run): Drug[] {
  const name = recipe.order?.one("route")?.slots.route.name;
  if (!name || !isGuarded(name)) return [];
  return drugsGiven(run).filter((drug) => {
    // Forbidden under another name of the same space: told as that.
    const isForbidden = drug.facts.all("never").some(({ slots }) => isSameRoute(slots.route.name, name));
    return !isForbidden && !routesOf(drug).includes(name);
  });
}
