/** Where the language's bench and the oracle differ on one run, in words; nothing where they agree to the last digit. */
import type { Run } from "../../language/bench/run.ts";
import { solutionOf } from "../../language/bench/solution.ts";
import type { Vessel } from "../../language/bench/things.ts";
import type { Exact } from "../../language/quantities/exact.ts";
import type { Container } from "./bench-top.ts";
import { ionsOf } from "./facts.ts";
import { Fraction } from "./fraction.ts";
import type { Program } from "./program.ts";
import type { Carried, Outcome } from "./run.ts";
import type { Shares } from "./vessel.ts";

export function fractionOf(value: Exact): Fraction {
  const [n = "0", d = "1"] = value.key().split("/");
  return Fraction.ratio(BigInt(n), BigInt(d));
}

/** @param stepOf which of the recipe's steps each action of the program is */
export function differences(program: Program, outcome: Carried, run: Run, stepOf: readonly number[]): string[] {
  const found: string[] = [];
  const differ = (what: string, language: Exact | undefined, oracle: Fraction | undefined): void => {
    const said = language && fractionOf(language);
    if (said === undefined ? oracle !== undefined : !oracle?.is(said))
      found.push(`${what}: the language ${said}, the oracle ${oracle}`);
  };
  if (run.unknown) found.push("the language does not know the run");
  for (const [i, step] of outcome.steps.entries()) {
    // A step that throws liquid out moves none from one container to another.
    if (step.moved) differ(`step ${stepOf[i]! + 1} moves`, run.steps[stepOf[i]!]?.moved, step.moved);
  }
  const isVessel = outcome.program.materials.filter(({ set, device }) => !set && !device);
  for (const { name } of isVessel) {
    const theirs = (run.setup.groups.get(name)?.things ?? []).filter((thing) => thing.is === "vessel");
    const ours = outcome.top.set(name);
    if (theirs.length !== ours.length) {
      found.push(`${name}: the language takes ${theirs.length}, the oracle ${ours.length}`);
      continue;
    }
    for (const [i, vessel] of theirs.entries())
      if (!vessel.discarded) compareVessel(program, outcome, vessel, ours[i]!, differ);
  }
  for (const vessel of run.finals) compareSolution(program, outcome, run, vessel, differ);
  return found;
}

type Differ = (what: string, language: Exact | undefined, oracle: Fraction | undefined) => void;

function compareVessel(program: Program, { top }: Outcome, vessel: Vessel, ours: Container, differ: Differ): void {
  const { contents } = top;
  const name = `${vessel.name} ${vessel.index}`;
  const { liquid } = vessel;
  differ(`mL in ${name}`, liquid.volume, contents.volume(ours.holds));
  for (const drug of program.drugs) {
    const amount = contents.amount(ours.holds, drug.name);
    const said = liquid.amounts.get(drug.name);
    if (said || !amount.isZero) differ(`${drug.name} in ${name}`, said, amount);
  }
  for (const fluid of program.fluids) {
    const volume = contents.fluid(ours.holds, fluid.name);
    const said = liquid.fluids.get(fluid.name);
    if (said || !volume.isZero) differ(`mL of ${fluid.name} in ${name}`, said, volume);
  }
}

function compareSolution(program: Program, outcome: Outcome, run: Run, vessel: Vessel, differ: Differ): void {
  const { contents } = outcome.top;
  const holds: Shares = outcome.top.set(vessel.name)[vessel.index - 1]!.holds;
  const solution = solutionOf(run, vessel);
  const volume = contents.volume(holds);
  for (const ion of ionsOf(program)) {
    const amount = contents.ion(holds, ion);
    if (amount.isZero) continue;
    const said = solution?.ions.find((each) => each.ion === ion);
    differ(`mmol of ${ion} in ${vessel.name}`, said?.mmol, amount);
    differ(
      `mmol of ${ion} in a litre of ${vessel.name}`,
      said?.mmolPerLitre,
      amount.over(volume).times(Fraction.of(1000)),
    );
    const charge = program.drugs.find((drug) => drug.ion?.name === ion)?.ion?.charge ?? 1;
    if (charge > 0) differ(`mEq of ${ion} in ${vessel.name}`, said?.mEq, amount.times(Fraction.of(charge)));
  }
  const osmoles = contents.osmoles(holds);
  if (osmoles) {
    differ(`mOsm in ${vessel.name}`, solution?.osmoles?.least, osmoles);
    differ(`mOsm at most in ${vessel.name}`, solution?.osmoles?.most, osmoles);
  }
}
