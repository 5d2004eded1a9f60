/**
 * Who met whom: every drug and fluid that comes together with another in one container or syringe. The bench notes additions
 * to containers; what is drawn on top of something in a syringe is followed here.
 */
import { oncePerRun } from "../../bench/remembered-run.ts";
import { happened, type Run } from "../../bench/run.ts";
import type { StepRun } from "../../bench/step-run.ts";
import { thingName, type Vessel } from "../../bench/things.ts";
import type { Drug } from "../../model/declaration.ts";
import type { Spot } from "../../model/slots.ts";

export interface Meeting {
  at: Spot;
  step: StepRun;
  vessel: Vessel;
  /** The drug whose facts are asked. */
  drug: Drug;
  /** The fluid or drug that it meets. */
  other: string;
  otherIsDrug: boolean;
}

interface Gathering {
  at: Spot;
  step: StepRun;
  vessel: Vessel;
  drugs: string[];
  fluids: string[];
}

/** Each drug with each fluid and each other drug, at the first step where they come together; a pair of drugs is met once from each side. */
export const meetings = oncePerRun(meet);

function meet(run: Run): readonly Meeting[] {
  const found: Meeting[] = [];
  const met = new Set<string>();
  const all = [...additions(run), ...drawnTogether(run)].sort((a, b) => a.step.number - b.step.number);
  for (const { at, step, vessel, drugs, fluids } of all) {
    for (const name of drugs) {
      const drug = run.setup.drugs.get(name);
      if (!drug) continue;
      for (const other of [...fluids, ...drugs]) {
        // The vehicle of a solution bears its drug's name: it is the drug's own label.
        const key = `${name} ${other}`;
        if (other === name || met.has(key)) continue;
        met.add(key);
        found.push({ at, step, vessel, drug, other, otherIsDrug: run.setup.drugs.has(other) });
      }
    }
  }
  return found;
}

function additions(run: Run): Gathering[] {
  return happened(run, "addition").map(({ spot, step, data }) => ({
    at: spot,
    step,
    vessel: data.vessel,
    drugs: [...new Set([...data.present.drugs, ...data.drugs, ...powderIn(data.vessel)])],
    fluids: [...new Set([...data.present.fluids, ...data.fluids])],
  }));
}

/** A powder is no liquid yet, but the fluid that reaches its vial meets it. */
function powderIn(vessel: Vessel): string[] {
  const drug = vessel.kind === "powder-vial" ? vessel.stock?.facts.one("drug")?.slots.drug.name : undefined;
  return drug === undefined ? [] : [drug];
}

/** What stands in each syringe, step by step: several draws before it is emptied come together in it. */
function drawnTogether(run: Run): Gathering[] {
  const gatherings: Gathering[] = [];
  const held = new Map<Vessel, { drugs: Set<string>; fluids: Set<string> }>();
  for (const step of run.steps) {
    for (const move of step.movements) {
      if (move.from && (move.how === "push" || move.how === "waste") && move.from.kind === "syringe")
        held.delete(move.from);
      if (move.how === "waste") continue;
      const into = move.to;
      if (into?.kind !== "syringe") continue;
      const content = held.get(into) ?? { drugs: new Set(), fluids: new Set() };
      for (const drug of move.liquid.drugs) content.drugs.add(drug);
      for (const fluid of move.liquid.fluids.keys()) content.fluids.add(fluid);
      held.set(into, content);
      gatherings.push({ at: move.spot, step, vessel: into, drugs: [...content.drugs], fluids: [...content.fluids] });
    }
  }
  return gatherings;
}

export type Verdict = "compatible" | "incompatible" | undefined;

/** What is declared of two that meet; a drug's own word counts, and for two drugs the other's too. Incompatible outweighs. */
export function verdict({ drug, other, otherIsDrug }: Meeting, run: Run): Verdict {
  const sides: [Drug, string][] = [[drug, other]];
  const second = otherIsDrug ? run.setup.drugs.get(other) : undefined;
  if (second) sides.push([second, drug.name.name]);
  if (sides.some(([of, what]) => of.facts.all("incompatible").some((f) => f.slots.what.name === what)))
    return "incompatible";
  if (sides.some(([of, what]) => of.facts.all("compatible").some((f) => f.slots.what.name === what)))
    return "compatible";
  return labelFluid(drug, other, run) ? "compatible" : undefined;
}

/** The fluid that the label of a powder names for dissolving it. */
function labelFluid(drug: Drug, fluid: string, run: Run): boolean {
  for (const { item } of run.groups.values()) {
    if (item?.kind !== "stock" || item.facts.one("drug")?.slots.drug.name !== drug.name.name) continue;
    if (item.reconstitute?.one("with")?.slots.fluid.name === fluid) return true;
  }
  return false;
}

/** `in bag at step 10`. */
export function place({ vessel, step }: Pick<Meeting, "vessel" | "step">): string {
  return `in ${thingName(vessel)} at step ${step.number}`;
}

/** Each pair of drugs once, whichever side it was met from. */
export function onePerPair(all: readonly Meeting[]): Meeting[] {
  const seen = new Set<string>();
  return all.filter((m) => {
    const key = m.otherIsDrug ? [m.drug.name.name, m.other].sort().join(" ") : `${m.drug.name.name} ${m.other}`;
    if (seen.has(key)) return false;
    seen.add(key);
    return true;
  });
}
