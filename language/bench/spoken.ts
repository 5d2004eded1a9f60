/** Words for the sentences that verbs print. */

import type { NameSlot } from "../model/slots.ts";
import { Exact } from "../quantities/exact.ts";
import { showQuantity } from "../quantities/quantity.ts";
import { findUnit } from "../quantities/unit.ts";
import type { AskSlots } from "./asked.ts";
import { doseWords } from "./dose-asked.ts";
import type { AmountKind } from "./liquid.ts";
import { type Movement, pushedInto, type StepRun, takenUp } from "./step-run.ts";
import { thingName, type Vessel } from "./things.ts";

/** `mag`, `mag and bag`, `mag, filter and needle`. */
export function spoken(names: readonly NameSlot[]): string {
  return allOf(names.map((n) => n.name));
}

/** `a`, `a and b`, `a, b and c`. */
export function allOf(words: readonly string[]): string {
  if (words.length < 2) return words.join("");
  return `${words.slice(0, -1).join(", ")} and ${words.at(-1)}`;
}

/** What a step asks for: `4 mg as morphine-hydrochloride`, `20 mmol of potassium`, `dose`. */
export function asAsked({ amount, ion, as, figure, drug }: AskSlots): string {
  if (!amount) return doseWords({ ...(figure && { figure }), ...(drug && { drug }) });
  return `${amount.written}${ion ? ` of ${ion.name}` : ""}${as ? ` as ${as.name}` : ""}`;
}

/** How a step moves liquid, beside what and where. */
interface MannerSlots {
  pressure?: { choice: string };
  onTop?: unknown;
  deadSpace?: { choice: string };
}

/** `, at equal pressure, dead space included`, for the end of a sentence; empty where the step says nothing of it. */
export function manner({ pressure, onTop, deadSpace }: MannerSlots): string {
  const words = [
    pressure && `at ${pressure.choice}`,
    onTop !== undefined && "on top of what it holds",
    deadSpace && `dead space ${deadSpace.choice}`,
  ];
  return words.map((each) => (each ? `, ${each}` : "")).join("");
}

export function millilitres(volume: Exact): string {
  return `${volume.toText()} mL`;
}

/** Volume that a step moved, or nothing when it moved none. */
export function showVolume(run: StepRun): string {
  return run.moved ? millilitres(run.moved) : "";
}

/** What goes in or out of the containers that a step serves; of a step that only draws, what each syringe of a set takes up in all. */
function servedBy(step: StepRun): Pick<Movement, "from" | "to" | "moved">[] {
  const inAll = (each: ReadonlyMap<Vessel, Exact>) => [...each].map(([to, moved]) => ({ from: undefined, to, moved }));
  const pushed = pushedInto(step);
  const served = step.movements.filter((m) => m.how !== "draw");
  // In several loads each: what counts is what each gets.
  if (pushed.size > 1 && served.length > pushed.size) return inAll(pushed);
  if (served.length > 0) return served;
  const taken = takenUp(step);
  return taken.size > 1 ? inAll(taken) : [];
}

/** What each container of a set gives or gets, where a step serves several alike; undefined where it serves one, or shares otherwise. */
export function eachVolume(step: StepRun): Exact | undefined {
  const served = servedBy(step);
  const [first, second] = served;
  if (!first || !second || !served.every((m) => m.moved.equals(first.moved))) return undefined;
  const isAll = (side: "from" | "to") => new Set(served.map((m) => m[side])).size === served.length;
  return isAll("from") || isAll("to") ? first.moved : undefined;
}

/** For a sentence that says `each of`: what each gets, or the volumes one after another where they are not alike; never their sum. */
export function showEach(run: StepRun): string {
  const each = eachVolume(run);
  if (each) return millilitres(each);
  const served = servedBy(run);
  return served.length > 1 ? served.map((m) => millilitres(m.moved)).join(", then ") : showVolume(run);
}

/** `: 2 mL from mag 1 of 2, then 6 mL from mag 2 of 2`, where a draw goes on in a further container; else nothing. */
export function showByContainer({ movements }: StepRun): string {
  const drawn = movements.flatMap(({ from, moved }) => (from ? [{ from, moved }] : []));
  if (new Set(drawn.map(({ from }) => from)).size < 2) return "";
  return `: ${drawn.map(({ from, moved }) => `${millilitres(moved)} from ${thingName(from)}`).join(", then ")}`;
}

/** A concentration in a handy unit: `37.04 mg/mL`, `14.71 mcg/mL`; four significant digits where it is long. */
export function strength(held: Exact, ofVolume: Exact, kind: AmountKind): string {
  const [value, volume] = [held.plain(), ofVolume.plain()];
  if (!volume.isPositive()) return "no volume";
  const names: Readonly<Record<AmountKind, readonly string[]>> = {
    mass: ["mg/mL", "mcg/mL", "nanograms/mL"],
    moles: ["mmol/mL", "mmol/L"],
    equivalents: ["mEq/mL", "mEq/L"],
    activity: ["units/mL", "milliunits/mL"],
    volume: ["% v/v"],
  };
  const now = value.over(volume);
  const units = names[kind].map((name) => findUnit(name).unit!);
  const tenth = Exact.ratio(1, 10);
  const unit = units.find((u) => now.over(u.factor).isAtLeast(tenth)) ?? units.at(-1)!;
  return showQuantity({ value: shortened(now.over(unit.factor)), unit });
}

/** Long decimals to four significant digits; what a person writes down stays as it is. */
export function shortened(value: Exact): Exact {
  const places = value.decimalPlaces();
  return places !== undefined && places <= 4 ? value : value.roundedToDigits(4);
}
