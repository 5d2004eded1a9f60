import { recipeCheck } from "../check.ts";
import { example } from "../example.ts";
import { isSameRoute } from "./route-words.ts";
import { isSameWay, wayIn } from "./ways-in.ts";

const dose = "  dose           from 500 mg up to 10 g for any route\n";

/** By which a fluid for dialysis goes where its label says; by a vein it would be given as an infusion. */
const dialysisRoutes: ReadonlySet<string> = new Set([
  "intraperitoneal",
  "peritoneal",
  "peritoneal-dialysis",
  "haemodialysis",
  "haemofiltration",
  "hemodialysis",
  "hemofiltration",
  "extracorporeal",
]);

export const routeForbidden = recipeCheck({
  name: "route-forbidden",
  family: "limits",
  severity: "error",
  title: "A drug or fluid by a route that is forbidden for it",
  why: "Some drugs kill by the wrong route.",
  source: "common practice",
  bad: example([dose, `${dose}  never          intravenous\n`]),
  good: example([dose, `${dose}  never          intrathecal\n`]),
  *find({ recipe, run, lookup }) {
    const route = recipe.order?.one("route");
    if (!route) return;
    const name = route.slots.route.name;
    const ordered = [...recipe.order!.all("drug"), ...recipe.order!.all("additive")].map((f) => f.slots.drug.name);
    const drugs = new Set([...ordered, ...run.finals.flatMap((v) => v.liquid.drugs)]);
    for (const drug of [...drugs].flatMap((d) => lookup.find("drug", d) ?? [])) {
      const never = drug.facts.all("never").find((f) => isSameRoute(f.slots.route.name, name));
      if (never)
        yield {
          at: route,
          text: `${drug.name.name} must never be given by route ${name}. Correct the order, or do not make it.`,
          fact: never,
          chunk: drug.chunk,
        };
    }
    const way = wayIn(name);
    const isRinsed = way !== undefined && isSameWay(way, "irrigation");
    const fluids = new Set(run.finals.flatMap((v) => [...v.liquid.fluids.keys()]));
    for (const fluid of [...fluids].flatMap((f) => lookup.find("fluid", f) ?? [])) {
      const use = fluid.facts.one("use");
      const choice = use?.slots.use.choice;
      const fits = choice === "irrigation" ? isRinsed : dialysisRoutes.has(name) || isRinsed;
      if (use && choice !== "injection" && !fits)
        yield {
          at: route,
          text: `${fluid.name.name} is for ${choice} and the route is ${name}. Use a fluid for injection.`,
          fact: use,
          chunk: fluid.chunk,
        };
    }
  },
  say: ({ text, fact, chunk }) => ({
    text,
    related: [{ at: { start: fact.start, end: fact.end, chunk }, text: "said here" }],
  }),
});
