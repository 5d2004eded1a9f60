/**
 * What a printed line forbids, laid against the order: `Not for intravenous use` on what goes into a vein, `not for neonates` on an order for
 * one, `do not dilute in glucose` on a bag of glucose. Such a line is another recipe's, or the order is wrong.
 */
import { isGivenAtOnce } from "../../bench/given-at-once.ts";
import type { Recipe } from "../../model/declaration.ts";
import type { Lookup } from "../../model/lookup.ts";
import { isDiluent } from "./fluids-named.ts";
import { populationsIn } from "./label-populations.ts";
import { isOrderedWay } from "./label-routes.ts";
import { isRun } from "./label-ways.ts";
import { type Contradiction, sentencesIn } from "./words-against-order.ts";

const no = "(?:(?:do|must|should|may) not|not|never|must never|no)(?: to be| be)?";
/** One word of a way, a vein or a patient, and nothing behind it but its use: `Not for IV bolus` forbids the bolus. */
const refused = new RegExp(
  `^\\s*(?:this (?:bag|syringe) (?:is )?)?(?:${no}|avoid|contraindicated|unsuitable)` +
    "(?: (?:give|given|use|used|inject|injected|infuse|infused|administer|administered|suitable))?(?: it)?" +
    "(?: (?:by|for|in|via|into|through))?(?: use in)?(?: the| an?)?" +
    " ([A-Za-z.]+?)(?: (?:use|route|administration|line|vein|veins|access|cannula|catheter|patients))?\\s*$",
  "i",
);
const refusedFluid = new RegExp(
  `^\\s*(?:(?:${no})(?: (?:dilute|diluted|mix|mixed|add|added|put|give|given|infuse|infused))?(?: it)? (?:in|into|with|to)` +
    "|(?:is )?incompatible with)" +
    " (?:an? |the )?([^,;:()]+?)\\s*$",
  "i",
);

const access: Readonly<Record<string, string>> = {
  peripheral: "peripheral",
  peripherally: "peripheral",
  central: "central",
  centrally: "central",
};

export function refusalContradicted(text: string, recipe: Recipe, lookup: Lookup): Contradiction | undefined {
  for (const sentence of sentencesIn(text)) {
    const said = sentence.trim();
    const word = refused.exec(sentence)?.[1];
    const ordered = word === undefined ? undefined : orderedAs(word, recipe);
    if (ordered !== undefined) return { said, ordered };
    const fluid = refusedFluid.exec(sentence)?.[1];
    if (fluid !== undefined && isDiluent(fluid, recipe, lookup))
      return {
        said,
        ordered: `diluent ${recipe
          .order!.all("diluent")
          .map(({ slots }) => slots.fluid.name)
          .join(" and ")}`,
      };
  }
  return undefined;
}

/** The fact of the order that the word stands for, where it does. */
function orderedAs(word: string, recipe: Recipe): string | undefined {
  const { order } = recipe;
  const route = order?.one("route")?.slots.route.name;
  if (route !== undefined && isOrderedWay(word, route)) return `route ${route}`;
  const [vein, second] = order?.all("access") ?? [];
  const small = word.toLowerCase();
  if (vein && !second && access[small] === vein.slots.access.choice) return `access ${vein.slots.access.choice}`;
  const population = order?.one("population")?.slots.who.choice;
  if (population !== undefined && populationsIn(word).includes(population)) return `population ${population}`;
  const use = order?.one("use")?.slots.use.choice;
  if (small === "infusion" && isRun(recipe))
    return use ? `use ${use}` : `infuse-over ${order?.one("infuse-over")?.slots.time.written}`;
  if (small === "bolus" && isGivenAtOnce(recipe)) return `use ${use}`;
  return undefined;
}
