/** What the verbs that mix have in common: what they are done until, and what that makes of a container. */
import type { NameSlot, Spot } from "../../model/slots.ts";
import type { Bench } from "../bench.ts";
import type { StepRun } from "../step-run.ts";
import type { Vessel } from "../things.ts";

/** Verbs after which the content of a container is one. */
export const mixingVerbs = ["mix", "swirl", "shake", "dissolve"] as const;

export function isMixing(verb: string): boolean {
  return (mixingVerbs as readonly string[]).includes(verb);
}

/** One list for all of them. */
export const mixingEnds = "dissolved|suspended|clear";
export type MixingEnd = "dissolved" | "suspended" | "clear";

/** How an end is said on the sheet. */
export const endWords: Readonly<Record<MixingEnd, string>> = {
  dissolved: "dissolved",
  suspended: "evenly suspended",
  clear: "clear",
};

/** Natures of which something stays afloat when all is done: none of them becomes clear. */
const cloudy: ReadonlySet<string> = new Set(["suspension", "emulsion", "lipid-complex"]);
/** What is said to be suspended when it is ready; of a lipid complex labels say either. */
const suspended: ReadonlySet<string> = new Set(["suspension", "lipid-complex"]);

export function natureOf(bench: Bench, drug: string): string | undefined {
  return bench.setup.drugs.get(drug)?.facts.one("nature")?.slots.nature.choice;
}

/** The drug for which the container never comes to this end. */
function hindered(bench: Bench, { liquid: { drugs } }: Vessel, end: MixingEnd): string | undefined {
  const is = (natures: ReadonlySet<string>) => (drug: string) => natures.has(natureOf(bench, drug) ?? "");
  if (end === "suspended") return drugs.some(is(suspended)) ? undefined : drugs[0];
  return drugs.find(end === "clear" ? is(cloudy) : is(new Set(["suspension"])));
}

/** Of many alike the first stands for all. */
export function watchEnd(bench: Bench, names: readonly NameSlot[], end: Spot & { choice: MixingEnd }): void {
  for (const name of names) {
    const [vessel] = bench.vessels([name]);
    const drug = vessel && hindered(bench, vessel, end.choice);
    if (vessel && drug !== undefined)
      bench.note("swirled-to-other-end", end, { vessel, drug, end: end.choice, nature: natureOf(bench, drug) });
  }
}

export function watchShaken(bench: Bench, vessels: readonly Vessel[], spot: Spot): void {
  for (const vessel of vessels) {
    for (const drug of vessel.liquid.drugs) {
      if (bench.setup.drugs.get(drug)?.facts.one("mixing")?.slots.how.choice === "not-shaken")
        bench.note("shaken", spot, { vessel, drug });
    }
  }
}

/** The content of each container is one, and the powder of a vial in it. */
export function dissolved(bench: Bench, names: readonly NameSlot[], run: StepRun, end: MixingEnd = "dissolved"): void {
  for (const name of names) {
    for (const vessel of bench.vessels([name])) {
      // What settles is brought up again whenever that is needed.
      const isNeeded = vessel.undissolved !== undefined || vessel.unmixed !== undefined || end === "suspended";
      if (!isNeeded && !bench.unknown) bench.note("swirled-nothing", name, { vessel, end });
      vessel.undissolved = undefined;
      vessel.unmixed = undefined;
      vessel.mixed = run;
      run.result = vessel;
    }
  }
}

/** ` until clear, up to 10 min`. */
export function untilWords(end: { choice: MixingEnd } | undefined, time: { written: string } | undefined): string {
  return `${end ? ` until ${endWords[end.choice]}` : ""}${time ? `, up to ${time.written}` : ""}`;
}
