import type { Liquid } from "../../bench/liquid.ts";
import { rowAt } from "../../bench/order-rows.ts";
import type { Run } from "../../bench/run.ts";
import type { StepRun } from "../../bench/step-run.ts";
import type { Vessel } from "../../bench/things.ts";
import { vesselKey } from "../../bench/vessels.ts";
import type { Spot } from "../../model/slots.ts";
import { Exact } from "../../quantities/exact.ts";
import { inBase } from "../../quantities/quantity.ts";
import { recipeCheck } from "../check.ts";
import { contradictsItsClaim } from "../claims.ts";
import { isTold } from "../consequences.ts";
import type { RecipeContext } from "../context.ts";
import { example } from "../example.ts";
import { ml } from "../showing.ts";
import { orderedVolume } from "./ordered.ts";

export const methodNotFollowed = recipeCheck({
  name: "method-not-followed",
  family: "volumes",
  severity: "error",
  title: "The steps do not do what the method says",
  why: "The same order made up by another method has another concentration.",
  source: "Section 14 - Overfills (public study cards, undated, practitioner-based methods)",
  rows: ["technique-rules additive-volume-method"],
  bad: example(["    method          add-to-bag", "    method          withdraw-first"]),
  good: example(),
  *find(context) {
    const { recipe, run } = context;
    const method = rowAt(recipe.order?.all("method"), run);
    if (!method || run.unknown) return;
    const { choice } = method.slots.method;
    const diluent = recipe.order?.one("diluent")?.slots.fluid.name;
    if (choice === "undiluted" && diluent !== undefined) {
      yield { at: method.slots.method, choice, fault: `the order names ${diluent} as its diluent` };
      return;
    }
    for (const vessel of run.finals) {
      const late = choice.startsWith("withdraw-first") ? withdrawnLate(vessel, run) : undefined;
      const fault = late ? undefined : broken(choice, vessel, context);
      if (late) yield { at: late.spot, choice, late };
      else if (fault) yield { at: method.slots.method, choice, fault };
    }
  },
  say({ choice, fault, late }) {
    if (late)
      return {
        text: `The method is ${choice}, but step ${late.step.number} withdraws ${ml(late.moved)} from ${late.bag} after step ${late.adding.number} has added ${late.drugs.join(" and ")}, which goes with it. Withdraw before the drug goes in.`,
      };
    return {
      text: `The method is ${choice}, but ${fault}. Mend the steps or the method${fault?.startsWith("the steps withdraw") && choice === "withdraw-first" ? "; where the bag is to end at another volume than its label's, state `final-volume`" : ""}.`,
    };
  },
});

/** With a fluid, or with a drug in a bag or bottle that more is added to, such as premixed bags and eye drops. */
function isFilledByMaker({ stock }: Vessel): boolean {
  const container = stock?.facts.one("container")?.slots.kind.choice;
  return (
    stock?.facts.one("fluid") !== undefined ||
    (stock?.facts.one("drug") !== undefined && (container === "bag" || container === "bottle"))
  );
}

function broken(method: string, vessel: Vessel, context: RecipeContext): string | undefined {
  const { run } = context;
  const withdrawn = run.withdrawn.get(vesselKey(vessel));
  const isManufactured = isFilledByMaker(vessel);
  const { name } = vessel;
  switch (method) {
    case "add-to-bag":
      if (withdrawn) return `the steps withdraw ${ml(withdrawn)} from ${name}`;
      return isManufactured ? undefined : `${name} is no bag filled by its maker`;
    case "build-from-empty":
      return isManufactured ? `${name} is a bag filled by its maker` : undefined;
    case "undiluted": {
      if (isTold("fluid-not-ordered", context)) return undefined; // which tells any fluid, where no diluent is ordered
      // A drug's own solution stands among the fluids under the drug's name; what dissolved its powder is no dilution.
      const others = [...vessel.liquid.fluids.keys()].filter((fluid) => !vessel.liquid.drugs.includes(fluid));
      const added = others.filter((fluid) =>
        movements(run).some((m) => m.to === vessel && bringsOnly(m.liquid, fluid)),
      );
      return added.length > 0 ? `${name} holds ${added.join(" and ")} besides the drug` : undefined;
    }
    case "withdraw-first":
      return withdrawn ? otherThanAdded(vessel, context) : `no step withdraws anything from ${name}`;
    default:
      return withdrawn ? undefined : `no step withdraws anything from ${name}`;
  }
}

interface Late {
  step: StepRun;
  spot: Spot;
  moved: Exact;
  bag: string;
  adding: StepRun;
  drugs: readonly string[];
}

/** Room is made before the drug goes in. What is withdrawn after takes its share of the drug along, often too little to be told as a wrong dose. */
function withdrawnLate(vessel: Vessel, { steps }: Run): Late | undefined {
  let added: Pick<Late, "adding" | "drugs"> | undefined;
  for (const step of steps) {
    for (const { how, from, to, liquid, moved, spot } of step.movements) {
      if (to === vessel && liquid.drugs.length > 0) added ??= { adding: step, drugs: liquid.drugs };
      if (from === vessel && how === "waste" && added) return { step, spot, moved, bag: vessel.name, ...added };
    }
  }
  return undefined;
}

/** What is withdrawn must be what is added: to a mark of the syringe, and to a hundredth of the bag. */
function otherThanAdded(vessel: Vessel, context: RecipeContext): string | undefined {
  const { run } = context;
  if (isTold("claim-differs", context) && run.steps.some((step) => contradictsItsClaim(step, run))) return undefined;
  const out = movements(run).filter((m) => m.from === vessel && m.how === "waste");
  const added = movements(run).filter((m) => m.to === vessel);
  const withdrawn = sum(out);
  // More is taken out where the order wants less in the bag than its maker filled; that it is so much is held against the order.
  if (withdrawn.isAbove(sum(added)) && orderedVolume(run, vessel)) return undefined;
  const off = withdrawn.minus(sum(added)).abs();
  const marks = out.map((m) => m.to?.graduation ?? Exact.zero);
  const label = vessel.stock?.facts.one("fill")?.slots.fill.quantity;
  const hundredth = label ? inBase(label).over(Exact.of(100)) : Exact.zero;
  if (off.isAtMost(marks.reduce((most, mark) => Exact.greatest(most, mark), hundredth))) return undefined;
  return `the steps withdraw ${ml(withdrawn)} from ${vessel.name} and add ${ml(sum(added))}`;
}

/** Fluid without any drug in it. */
function bringsOnly(liquid: Liquid, fluid: string): boolean {
  return liquid.drugs.length === 0 && liquid.fluids.has(fluid);
}

function movements(run: Run) {
  return run.steps.flatMap((step) => step.movements);
}

function sum(movements: readonly { moved: Exact }[]): Exact {
  return movements.reduce((all, { moved }) => all.plus(moved), Exact.zero);
}
