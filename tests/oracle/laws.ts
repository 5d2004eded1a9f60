/** What no run may break: every mL and every bit of a drug that left the shelf is in some container, or was thrown away. */

import type { Liquid } from "../../language/bench/liquid.ts";
import type { Run } from "../../language/bench/run.ts";
import type { Vessel } from "../../language/bench/things.ts";
import { countsOverfill } from "./bench-top.ts";
import { fractionOf } from "./compare.ts";
import { broughtBy, displacementOf, named } from "./facts.ts";
import { Fraction } from "./fraction.ts";
import type { Program } from "./program.ts";

/** What is in the containers and the waste must be what was on the shelf; a powder brings the room that it takes up. */
export function lawsBroken(program: Program, run: Run): string[] {
  const vessels = [...run.setup.groups.values()].flatMap(({ things }) =>
    things.filter((thing) => thing.is === "vessel"),
  );
  const movements = run.steps.flatMap((step) => step.movements);
  const gone = movements
    .filter(({ how, to }) => how === "waste" || (how === "line" && !to))
    .map(({ liquid }) => liquid);
  // What a set was filled with had been let through as waste; a part of it comes back with the set.
  const back = movements.filter(({ how, from }) => how === "line" && !from).map(({ liquid }) => liquid);
  const liquids = [...vessels.map(({ liquid }) => liquid), ...gone];
  const pushedOut = expelled(run);
  const found: string[] = [];
  const check = (what: string, before: Fraction, after: Fraction): void => {
    if (!before.is(after)) found.push(`${what}: ${before} on the shelf, ${after} in the end`);
  };
  const total = (of: readonly (Fraction | undefined)[]): Fraction =>
    of.reduce<Fraction>((sum, each) => sum.plus(each ?? Fraction.zero), Fraction.zero);
  check(
    "mL",
    total([...vessels.map((vessel) => broughtVolume(program, vessel)), ...back.map((l) => fractionOf(l.volume))]),
    total([...liquids.map((l) => fractionOf(l.volume)), ...pushedOut.map(({ volume }) => volume)]),
  );
  for (const { name } of program.drugs) {
    const brought = [
      ...vessels.map((vessel) => broughtAmount(program, vessel, name)),
      ...back.map(({ amounts }) => amounts.get(name) && fractionOf(amounts.get(name)!)),
    ];
    const held = liquids.map(({ amounts }) => amounts.get(name));
    const undissolved = vessels.map(({ powder }) => (powder?.drug === name ? fractionOf(powder.amount) : undefined));
    const lost = pushedOut.map(({ amounts }) => amounts.get(name));
    check(name, total(brought), total([...held.map((each) => each && fractionOf(each)), ...undissolved, ...lost]));
  }
  return found;
}

interface Lost {
  volume: Fraction;
  amounts: ReadonlyMap<string, Fraction>;
}

/** What `expel air from SYRINGE to QUANTITY` pushes out with the air: the difference that the step makes. */
function expelled({ steps }: Run): Lost[] {
  const before = new Map<Vessel, Liquid>();
  return steps.flatMap((step) => {
    const lost = [...step.after].flatMap(([vessel, after]): Lost[] => {
      const was = before.get(vessel);
      before.set(vessel, after);
      if (step.verb !== "expel" || !was) return [];
      const amounts = [...was.amounts].map(([name, held]): [string, Fraction] => {
        return [
          name,
          fractionOf(held).minus(after.amounts.has(name) ? fractionOf(after.amounts.get(name)!) : Fraction.zero),
        ];
      });
      return [{ volume: fractionOf(was.volume).minus(fractionOf(after.volume)), amounts: new Map(amounts) }];
    });
    return lost;
  });
}

function stockOf(program: Program, { name }: Vessel) {
  const { stock } = named(program.materials, name);
  return stock === undefined ? undefined : named(program.stocks, stock);
}

/** mL that a container stood there with, or that its powder brought once it was dissolved. */
function broughtVolume(program: Program, vessel: Vessel): Fraction | undefined {
  const stock = stockOf(program, vessel);
  if (stock?.powder) return vessel.powder ? undefined : displacementOf(stock);
  if (!stock?.fill) return undefined;
  const isCounted = countsOverfill(program, vessel.name);
  const { least, most } = stock.overfill ?? {};
  const mean = isCounted && least && most ? least.value.plus(most.value).over(Fraction.of(2)) : Fraction.zero;
  return stock.fill.value.plus(mean);
}

function broughtAmount(program: Program, vessel: Vessel, drug: string): Fraction | undefined {
  const stock = stockOf(program, vessel);
  if (stock?.drug !== drug) return undefined;
  const one = broughtBy(program, stock);
  return stock.powder ? one : one.times(broughtVolume(program, vessel)!);
}
