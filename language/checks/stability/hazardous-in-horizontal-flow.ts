import { recipeCheck } from "../check.ts";
import { example } from "../example.ts";

export const hazardousInHorizontalFlow = recipeCheck({
  name: "hazardous-in-horizontal-flow",
  family: "stability",
  severity: "error",
  title: "A hazardous drug in a cabinet that contains nothing",
  why: "Flow over an open bench carries drops and vapour from the work to whoever works there, horizontal flow into the face.",
  source: "from memory: USP <800>, section 5, engineering controls",
  rows: ["technique-rules hd-not-horizontal"],
  bad: example(["  hazard         not-hazardous\n", "  hazard         hazardous\n"]),
  good: example(
    ["  hazard         not-hazardous\n", "  hazard         hazardous\n"],
    ["  cabinet        horizontal-laminar-flow\n", "  cabinet        containment-cabinet\n"],
  ),
  *find({ recipe, lookup, policy }) {
    const { cabinet } = policy;
    if (cabinet === undefined || cabinet === "containment-cabinet" || cabinet === "isolator") return;
    const seen = new Set<string>();
    for (const material of recipe.materials) {
      const name = lookup.find("stock", material.item.name)?.facts.one("drug")?.slots.drug.name;
      const drug = name === undefined ? undefined : lookup.find("drug", name);
      if (!drug || seen.has(drug.name.name) || drug.facts.one("hazard")?.slots.answer.choice !== "hazardous") continue;
      seen.add(drug.name.name);
      yield { at: material.item, drug, cabinet };
    }
  },
  say: ({ drug, cabinet }) => ({
    text: `${drug.name.name} is hazardous, and this site ${cabinet === "none" ? "names no cabinet" : `works in ${cabinet.replaceAll("-", " ")}`}. Make it in a containment cabinet or a containment isolator, in a library whose \`site\` says so.`,
  }),
});
