import type { NameSlot } from "../../model/slots.ts";
import { recipeCheck } from "../check.ts";
import { example } from "../example.ts";
import { isInSameFile } from "../same-file.ts";

export const noLotOnShelf = recipeCheck<{ at: NameSlot; stock: string; isDeclared: boolean }>({
  name: "no-lot-on-shelf",
  family: "stock",
  severity: "warning",
  title: "A stock of which no lot is on the shelf",
  why: "Without a lot there is no expiry to check and nothing to take from the shelf.",
  source: "common practice",
  bad: example(['lots magnesium-ampoule {\n  lot "KQ-2291"  expires 2027-04\n}\n', ""]),
  good: example(),
  *find({ recipe, lookup, chunk }) {
    // A library that keeps no lots at all is judged without a shelf, as its README says.
    const declared = lookup.names("lots");
    const kept = declared.length > 0 || recipe.materials.some((m) => lookup.lots(m.item.name).length > 0);
    if (!kept) return;
    const said = new Set<string>();
    for (const { item } of recipe.materials) {
      if (said.has(item.name) || !lookup.find("stock", item.name) || lookup.lots(item.name).length > 0) continue;
      const isDeclared = declared.includes(item.name);
      // A lots block without a lot, or with none that can be read, is told in its own place.
      if (isDeclared && isInSameFile(lookup.find("stock", item.name)!.chunk, chunk)) continue;
      said.add(item.name);
      yield { at: item, stock: item.name, isDeclared };
    }
  },
  say: ({ stock, isDeclared }) => ({
    text: isDeclared
      ? `The lots of ${stock} name none that can be read, so its expiry is not checked. Mend them.`
      : `No lot of ${stock} is on the shelf, so its expiry is not checked. Add \`lots ${stock} { … }\`, or take a stock that is there.`,
  }),
});
