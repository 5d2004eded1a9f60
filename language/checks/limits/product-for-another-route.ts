import type { Stock } from "../../model/declaration.ts";
import type { Spot } from "../../model/slots.ts";
import { recipeCheck } from "../check.ts";
import { example } from "../example.ts";
import { oneOf } from "../showing.ts";
import { isNotKnown } from "../unread-facts.ts";
import { productsGiven } from "./preserved.ts";
import { isSameRoute } from "./route-words.ts";
import { depotRoutes, depotWord, isSameWay, wayIn, wayOfProduct } from "./ways-in.ts";

const ampoule = "  strength   500 mg/mL\n";

export const productForAnotherRoute = recipeCheck<{
  at: Spot;
  stock: Stock;
  route: string;
  stated: readonly (Spot & { route: string })[];
  word: string | undefined;
}>({
  name: "product-for-another-route",
  family: "limits",
  severity: "error",
  title: "A product by a route that its label does not allow, or its name speaks against",
  why: "What is sold to be swallowed, breathed in, put on the skin or left in a muscle is not made for the vein; some of it kills there.",
  source: "from memory: published warnings against oral liquids and depot products given into a vein",
  bad: example([ampoule, `${ampoule}  route      intramuscular\n`]),
  good: example([ampoule, `${ampoule}  route      intramuscular\n  route      intravenous\n`]),
  *find({ recipe, run, lookup }) {
    const route = recipe.order?.one("route")?.slots.route.name;
    if (route === undefined) return;
    for (const { at, stock } of productsGiven(recipe, run, lookup)) {
      const stated = stock.facts.all("route").map(({ slots, start, end }) => ({ route: slots.route.name, start, end }));
      if (stated.some((each) => isSameRoute(each.route, route)) || isNotKnown(stock.facts, "route")) continue;
      const word = stated.length === 0 ? wordAgainst(stock, route) : undefined;
      // A fluid that is declared for irrigation is told as that.
      const fluid = stock.facts.one("fluid")?.slots.fluid.name;
      const use = fluid === undefined ? undefined : lookup.find("fluid", fluid)?.facts.one("use")?.slots.use.choice;
      if ((stated.length > 0 || word !== undefined) && use !== "irrigation") yield { at, stock, route, stated, word };
    }
  },
  say: ({ stock, route, stated, word }) => ({
    text:
      word === undefined
        ? `${stock.name.name} is for route ${oneOf(stated.map((each) => each.route))} only, and the order is ${route}. Use a product for route ${route}; where the label allows it, add \`route ${route}\` to the product.`
        : `The name of ${stock.name.name} says \`${word}\`, and the order is ${route}. Use a product for route ${route}; where the label allows it, add \`route ${route}\` to the product.`,
    related: stated.map(({ start, end }) => ({ at: { start, end, chunk: stock.chunk }, text: "said here" })),
  }),
});

/** The word in the name of a product by which it is not for this route. */
function wordAgainst({ name: { name } }: Stock, route: string): string | undefined {
  const way = wayIn(route);
  if (way === undefined) return undefined;
  const product = wayOfProduct(name);
  if (product && !isSameWay(product.way, way))
    return way === "injected" || product.way !== "skin" ? product.word : undefined;
  return way === "injected" && !depotRoutes.has(route) ? depotWord(name) : undefined;
}
