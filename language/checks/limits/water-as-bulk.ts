import type { Fluid } from "../../model/declaration.ts";
import { Exact } from "../../quantities/exact.ts";
import { inBase, showQuantity } from "../../quantities/quantity.ts";
import { findUnit } from "../../quantities/unit.ts";
import { recipeCheck } from "../check.ts";
import { powderExample } from "../example.ts";
import { slipsOf } from "../slips.ts";
import { mainFluid } from "../stability/stable-rows.ts";
import { fluidMisfit } from "../stock/fluid-figures-do-not-fit.ts";
import { isMostlyUndeclared } from "../undeclared-fluids.ts";
import { osmolarityOf } from "./osmolarity.ts";
import { routeMeant } from "./route-words.ts";

const perLitre = findUnit("mOsm/L").unit!;
/** mOsm per mL below which red cells burst: 154 mOsm/L, half of sodium chloride 0.9 %. */
const floor = Exact.of("0.154");
const neverAlone: [string, string] = ["  osmolarity  0 mOsm/L\n", "  osmolarity  0 mOsm/L\n  never-alone  yes\n"];
const waterBag = `stock water-bag-100 {
  fluid      water-for-injection
  container  bag
  fill       100 mL
  capacity   150 mL
  made-of    polyolefin
  doses      single
  storage    room-temperature
}

lots water-bag-100 {
  lot "KQ-7200"  expires 2027-09
}

stock wfi-vial-20 {`;

export const waterAsBulk = recipeCheck({
  name: "water-as-bulk",
  family: "limits",
  severity: "error",
  title: "Plain water makes up the bulk of what is infused",
  why: "Water without enough dissolved in it bursts red cells in the vein; this has killed patients.",
  source: "Haemolysis risk of hypotonic dilution in sterile water (from memory): 154 mOsm/L is the usual floor",
  rows: ["limits osm-water"],
  bad: powderExample(
    neverAlone,
    ["stock wfi-vial-20 {", waterBag],
    ["sack         saline-bag-100", "sack         water-bag-100"],
    [
      "500 mg per sack\n    diluent         sodium-chloride-0.9",
      "500 mg per sack\n    diluent         water-for-injection",
    ],
    ['"table 9"\n    in             sodium-chloride-0.9', '"table 9"\n    in             water-for-injection'],
    ["Vancomycin 500 mg in sodium chloride 0.9 % 100 mL", "Vancomycin 500 mg in water 100 mL"],
  ),
  good: powderExample(neverAlone),
  *find({ recipe, runs, lookup }) {
    const { order } = recipe;
    const route = routeMeant(order?.one("route")?.slots.route.name ?? "");
    if (!order || route !== "intravenous" || order.one("use")?.slots.use.choice === "bolus") return;
    for (const run of runs) {
      if (run.unknown) continue;
      for (const vessel of run.finals) {
        const fluid = mainFluid(vessel, run);
        const declared = fluid === undefined ? undefined : lookup.find("fluid", fluid);
        const found = osmolarityOf(vessel, run);
        if (!declared || !isTooThin(declared) || !found || found.least.isAtLeast(floor)) continue;
        // A wrong volume of what is drawn leaves the water as the most; that is told.
        if (slipsOf(run).changesVolumeOf(vessel) || isMostlyUndeclared(vessel, run)) continue;
        yield { at: order.one("diluent") ?? order.spot, vessel, fluid: declared.name.name, found };
      }
    }
  },
  say: ({ vessel, fluid, found }) => {
    const value = showQuantity({ value: found.least.over(perLitre.factor), unit: perLitre }, 3);
    const open = found.uncounted.map(({ name }) => name).join(", ");
    // A salt that nobody counted may be enough.
    const lacks = open
      ? ` Where ${open} brings enough, add what makes it count: ${found.uncounted.map((u) => u.lacks).join(" and ")}.`
      : "";
    return {
      text: `${vessel.name} is mostly ${fluid}, with ${value} dissolved in it (${open ? `${open} not counted` : "all counted"}); an infusion needs 154 mOsm/L at least. Use a fluid with salt or glucose, or give it as a small \`use bolus\`.${lacks}`,
    };
  },
});

/** Water by its own word, or by an osmolarity below the floor: that the word was forgotten must not pass it. */
function isTooThin(fluid: Fluid): boolean {
  const { facts } = fluid;
  if (facts.one("never-alone")) return true;
  // A slip in the osmolarity itself is told at the fluid.
  if (fluidMisfit(fluid)) return false;
  const stated = facts.one("osmolarity")?.slots.osmolarity.quantity;
  return stated !== undefined && stated.unit.dimension === perLitre.dimension && inBase(stated).isBelow(floor);
}
