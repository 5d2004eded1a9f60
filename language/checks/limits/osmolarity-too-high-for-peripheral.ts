import { kindUnits } from "../../bench/amounts.ts";
import type { Run } from "../../bench/run.ts";
import type { Vessel } from "../../bench/things.ts";
import type { Drug } from "../../model/declaration.ts";
import { Exact } from "../../quantities/exact.ts";
import { inBase, showQuantity } from "../../quantities/quantity.ts";
import { findUnit } from "../../quantities/unit.ts";
import { recipeCheck } from "../check.ts";
import { example } from "../example.ts";

const perLitre = findUnit("mOsm/L").unit!;
const role = "  role           pharmacist\n";

export const osmolarityTooHighForPeripheral = recipeCheck({
  name: "osmolarity-too-high-for-peripheral",
  family: "limits",
  severity: "error",
  title: "Too concentrated in all for a vein of the arm",
  why: "A solution far above the osmolarity of blood inflames a small vein.",
  source: "Parenteral nutrition chapter (medical textbook section): 900 mOsm/L; the site sets its own limit",
  rows: [
    "limits osm-periph-900",
    "limits osm-periph-espen",
    "limits osm-periph-espen-hi",
    "limits osm-periph-ins",
    "limits osm-label-600",
    "limits osm-formula",
  ],
  bad: example([role, `${role}  peripheral-osmolarity  up to 500 mOsm/L\n`]),
  good: example([role, `${role}  peripheral-osmolarity  up to 600 mOsm/L\n`]),
  *find({ recipe, runs, policy }) {
    const access = recipe.order?.one("access");
    if (access?.slots.access.choice !== "peripheral") return;
    const seen = new Set<string>();
    for (const run of runs) {
      if (run.unknown) continue;
      for (const vessel of run.finals) {
        const osmolarity = atLeast(vessel, run);
        if (!osmolarity || seen.has(vessel.name) || osmolarity.value.isAtMost(inBase(policy.peripheralOsmolarity)))
          continue;
        seen.add(vessel.name);
        yield { at: access, vessel, osmolarity };
      }
    }
  },
  say: ({ vessel, osmolarity }, { policy }) => {
    const value = showQuantity({ value: osmolarity.value.over(perLitre.factor), unit: perLitre }, 3);
    const uncounted =
      osmolarity.uncounted.length > 0 ? ` (${osmolarity.uncounted.join(", ")} not counted, for want of figures)` : "";
    return {
      text: `${vessel.name} has about ${value} or more${uncounted}; the site's limit for a peripheral vein is ${showQuantity(policy.peripheralOsmolarity)}. Dilute it more, or give it by a central line.`,
    };
  },
});

/**
 * Sum over fluids and solutes, ideal: the least that it can be. A salt of which only one ion is declared has one counter-ion at
 * least. A drug without formula is left out and named.
 * @returns mOsm per mL
 */
function atLeast(vessel: Vessel, run: Run): { value: Exact; uncounted: string[] } | undefined {
  if (!vessel.liquid.volume.isPositive()) return undefined;
  let total = Exact.zero;
  const uncounted: string[] = [];
  for (const [name, volume] of vessel.liquid.fluids) {
    const fluid = run.setup.fluids.get(name);
    const stated = fluid?.facts.one("osmolarity")?.slots.osmolarity.quantity;
    if (stated) total = total.plus(volume.times(inBase(stated)));
    else if (fluid) uncounted.push(name);
  }
  for (const [name, held] of vessel.liquid.amounts) {
    const drug = run.setup.drugs.get(name);
    if (!drug) continue;
    const particles = particlesOf(held, drug, run);
    if (particles) total = total.plus(particles);
    else uncounted.push(name);
  }
  return { value: total.over(vessel.liquid.volume), uncounted };
}

function particlesOf(held: Exact, drug: Drug, run: Run): Exact | undefined {
  const kind = run.setup.kinds.get(drug.name.name);
  const { molarMass, ions } = drug.substance;
  const each = Exact.of(Math.max(1, ions.reduce((sum, ion) => sum + ion.perFormula, 0) + (ions.length === 1 ? 1 : 0)));
  if (kind === "moles") return held.times(each);
  if (kind !== "mass" || !molarMass?.isPositive()) return undefined;
  return inBase({ value: held, unit: kindUnits.mass }).over(molarMass).times(Exact.of(1000)).times(each);
}
