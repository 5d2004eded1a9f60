import type { Run } from "../../bench/run.ts";
import type { Vessel } from "../../bench/things.ts";
import type { NameSlot } from "../../model/slots.ts";
import type { Exact } from "../../quantities/exact.ts";
import { recipeCheck } from "../check.ts";
import { isTold } from "../consequences.ts";
import { example } from "../example.ts";
import { amount } from "../showing.ts";

interface NotOrdered {
  at: NameSlot;
  drug: string;
  held: Exact;
  run: Run;
  ordered: string;
}

const second = (order: string) =>
  example(
    ["    drug            magnesium-sulfate\n    dose            4 g per bag\n", order],
    ["  strength   500 mg/mL\n", "  strength   500 mg/mL\n  one-filter-for  2  source guide\n"],
    ["recipe magnesium-4g {", "recipe magnesium-twice {"],
    ["Magnesium sulfate 4 g in", "Magnesium sulfate, two bags, in"],
    ["    mag          magnesium-ampoule", "    mag          2 x magnesium-ampoule\n    bag-2        saline-bag-100"],
    [
      "    filter       filter-needle-5um\n    needle       needle-18-gauge",
      "    filter       filter-needle-5um\n    filter-2     filter-needle-5um\n    needle       needle-18-gauge\n    needle-2     needle-18-gauge\n    second       syringe-10mL",
    ],
    ["of mag, bag\n", "of mag, bag, bag-2\n"],
    [
      "    mix bag by inverting 10 times\n",
      `    mix bag by inverting 10 times
    attach filter-2 to second
    draw 4 g from mag into second  = 8 mL
    expel air from second
    replace filter-2 on second with needle-2
    disinfect bag-2
    inject second into bag-2
    mix bag-2 by inverting 10 times
`,
    ],
    [
      "    inspect bag\n    seal bag\n    label bag\n",
      "    inspect bag, bag-2\n    seal bag, bag-2\n    label bag, bag-2\n",
    ],
    ["keep mag, filter, needle, syringe for", "keep mag, filter, needle, syringe, filter-2, needle-2, second for"],
    [
      "  preparation bag {\n",
      `  preparation bag-2 {
    form           solution-for-infusion
    concentration  37.04 mg/mL
    use-within     24 h at room-temperature
    appearance     "clear, colourless, free of particles"
  }

  preparation bag {
`,
    ],
  );

const first = "    additive        magnesium-sulfate 4 g per bag\n";

export const finishedContainerNotOrdered = recipeCheck<NotOrdered>({
  name: "finished-container-not-ordered",
  family: "volumes",
  severity: "error",
  title: "A finished container that holds an ordered drug, of which the order says nothing",
  why: "Nobody has said how much this container should hold, so that any amount in it would pass.",
  source: "common practice",
  bad: second(first),
  good: second(`${first}    additive        magnesium-sulfate 4 g per bag-2\n`),
  *find(context) {
    const { recipe, runs } = context;
    for (const run of runs) {
      // A line of the order that names no finished container may be meant for this one, and is told.
      if (run.unknown || (isTold("ordered-container-not-finished", context) && namesAnother(run))) continue;
      for (const vessel of run.finals) {
        const preparation = recipe.preparations.find((p) => p.name.name === vessel.name);
        if (!preparation) continue;
        for (const drug of vessel.liquid.drugs) {
          const held = vessel.liquid.amounts.get(drug);
          const ordered = elsewhere(drug, vessel, run);
          if (held?.isPositive() && ordered !== undefined) yield { at: preparation.name, drug, held, run, ordered };
        }
      }
    }
  },
  say: ({ at, drug, held, run, ordered }) => {
    const kind = run.setup.kinds.get(drug);
    const shown = kind ? `${amount(held, kind)} of ${drug}` : drug;
    return {
      text: `${at.name} is finished with ${shown}; the order states it for ${ordered} alone. State the dose of each container, such as \`additive ${drug} … per ${at.name}\`, or take ${at.name} out of what is finished.`,
    };
  },
});

function namesAnother({ doses, recipe }: Run): boolean {
  const finished = recipe.preparations.map((p) => p.name.name);
  const { order } = recipe;
  // A series without its volume has no dose that could be worked out; its lines name the containers all the same.
  const rows = [...(order?.all("concentration") ?? []), ...(order?.all("final-volume") ?? [])];
  const named = [
    ...doses.flatMap(({ per }) => ("container" in per ? [per.container] : [])),
    ...rows.flatMap(({ slots }) => slots.container?.name ?? []),
  ];
  return named.some((name) => !finished.includes(name));
}

/** The finished containers for which the drug is ordered, where this is none of them; an amount of one of its ions orders it too. */
function elsewhere(drug: string, vessel: Vessel, { doses, recipe, setup }: Run): string | undefined {
  const own = doses.filter((d) => d.drug === drug);
  const containers = own.flatMap(({ per }) => ("container" in per ? [per.container] : []));
  if (containers.length < own.length || containers.includes(vessel.name)) return undefined;
  const ions = setup.drugs.get(drug)?.substance.ions ?? [];
  const targets = recipe.order?.all("target") ?? [];
  if (targets.some(({ slots }) => ions.some((ion) => ion.name === slots.ion.name))) return undefined;
  return containers.length > 0 ? [...new Set(containers)].join(", ") : undefined;
}
