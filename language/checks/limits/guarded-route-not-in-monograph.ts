import { recipeCheck } from "../check.ts";
import { example } from "../example.ts";
import { isGuarded, isSameRoute } from "./guarded-routes.ts";
import { routesOf } from "./route-not-in-monograph.ts";

const vein = "    route           intravenous\n    access          peripheral\n    infuse-over     4 h\n";
const spine = "    route           intrathecal\n";
const dose = "  dose           from 500 mg up to 10 g for any route\n";

export const guardedRouteNotInMonograph = recipeCheck({
  name: "guarded-route-not-in-monograph",
  family: "limits",
  severity: "error",
  title: "A drug into spine, brain or eye whose monograph does not name that route",
  why: "Drugs for the vein have killed in the spinal canal; limits for any route do not speak of it.",
  source: "from memory: published warnings against the wrong route",
  bad: example([vein, spine]),
  good: example([vein, spine], [dose, `${dose}  dose           up to 4 g for route intrathecal\n`]),
  *find({ recipe, run }) {
    const route = recipe.order?.one("route");
    const name = route?.slots.route.name;
    if (!route || !name || !isGuarded(name)) return;
    const ordered = new Set(run.doses.map((d) => d.drug));
    for (const [drugName, drug] of run.setup.drugs) {
      if (!ordered.has(drugName) && !run.finals.some((v) => v.liquid.drugs.includes(drugName))) continue;
      // Forbidden under another name of the same space: told as that.
      const isForbidden = drug.facts.all("never").some(({ slots }) => isSameRoute(slots.route.name, name));
      if (!isForbidden && !routesOf(drug).includes(name)) yield { at: route, route: name, drug };
    }
  },
  say: ({ route, drug }) => ({
    text: `The order is ${route}, and the monograph of ${drug.name.name} does not name that route. Correct the route, or state a dose or limit for route ${route} with its source.`,
    related: [{ at: { start: drug.head.start, end: drug.head.end, chunk: drug.chunk }, text: "the monograph" }],
  }),
});
