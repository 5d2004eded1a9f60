/** The steps as sentences, with the volume to see on the scale and the cautions that belong to each. */

import { type DoseSlots, dosesMeant } from "../bench/dose-asked.ts";
import type { Run } from "../bench/run.ts";
import { type Group, vesselsOf } from "../bench/setup.ts";
import { eachVolume } from "../bench/spoken.ts";
import { claimText, type StepRun, takenUp } from "../bench/step-run.ts";
import { hasEntry, isFilter, isNeedle, isSealedVial, isSharp, type Thing, thingName } from "../bench/things.ts";
import type { Caution } from "../bench/verb.ts";
import { isConsumable } from "../bench/vessels.ts";
import type { Step } from "../model/declaration.ts";
import type { Lookup } from "../model/lookup.ts";
import type { Policy } from "../model/policy.ts";
import { Exact } from "../quantities/exact.ts";
import { showQuantity } from "../quantities/quantity.ts";
import { contentsOf } from "../working/contents.ts";
import { loadsOf } from "../working/moving.ts";
import { statedStrength } from "../working/stated-strength.ts";
import { millilitres } from "../working/working.ts";
import { drugIn, drugName, fluidName, spaced, withFigure } from "./printed-names.ts";
import { productOf } from "./product.ts";
import { figure, fixed, type Said, volumeFigure } from "./said.ts";
import type { KeepRow, StepRow } from "./sheet.ts";

export function stepRows(run: Run, lookup: Lookup, policy: Policy): StepRow[] {
  const byStep = new Map<Step, StepRun>(run.steps.map((s) => [s.step, s]));
  return run.recipe.steps.map((step) => {
    const done = byStep.get(step);
    return done ? rowOf(run, done, lookup, policy) : unread(step);
  });
}

/** A step that the bench could not read is shown in the author's words, and the sheet is not for use. */
function unread(step: Step): StepRow {
  const words = step.tokens.map((t) => t.text).join(" ");
  return {
    number: numbered(step.number),
    sentence: { text: `Not understood: ${words}`, from: { kind: "step", number: step.number } },
    things: [],
    figure: undefined,
    detail: [],
    cautions: [],
    kind: "note",
  };
}

function numbered(number: number): Said {
  return { text: String(number), from: { kind: "count", what: "steps" } };
}

function rowOf(run: Run, done: StepRun, lookup: Lookup, policy: Policy): StepRow {
  const planned = run.plan.steps.find((p) => p.step === done.step)!;
  const from = { kind: "step", number: done.number } as const;
  if (done.skipped) {
    const sentence = { text: "Not for this order. Leave it out.", from };
    return {
      number: numbered(done.number),
      sentence,
      things: [],
      figure: undefined,
      detail: [],
      cautions: [],
      kind: "skipped",
    };
  }
  const { verb } = planned;
  const isCheck = done.verb === "check" && typeof (done.slots as { role?: unknown }).role === "object";
  return {
    number: numbered(done.number),
    sentence: { text: verb.sentence(planned.slots as never, done), from },
    things: thingsOf(run, done, lookup),
    figure: scaleFigure(done),
    detail: [...detailOf(run, done), ...labelWords(run, done, lookup)],
    cautions: verb.cautions.filter((c) => applies(c, run, done, policy)).map((c) => fixed(c.text, `verb ${verb.word}`)),
    kind: done.verb === "note" ? "note" : isCheck ? "check" : "do",
  };
}

/** What to see on the scale: for a set what each of it gives or gets, never the sum, which no scale shows. */
function scaleFigure(done: StepRun): Said | undefined {
  const each = eachVolume(done);
  if (each?.isPositive()) {
    const value = millilitres(each);
    return figure(`each ${done.number} moves`, value, `${showQuantity(value)} each`);
  }
  return done.moved?.isPositive() ? volumeFigure(`step ${done.number} moves`, done.moved) : undefined;
}

const moving: ReadonlySet<string> = new Set([
  "draw",
  "reconstitute",
  "add",
  "withdraw",
  "make",
  "pool",
  "transfer",
  "fill",
]);

/** Where liquid is taken up, the names of the steps are told once more with what they stand for. */
function thingsOf(run: Run, done: StepRun, lookup: Lookup): StepRow["things"] {
  if (!moving.has(done.verb)) return [];
  const names = [...new Set(done.touched.map((t) => t.name))];
  return names.flatMap((name) => {
    const group = run.groups.get(name);
    return group ? [{ name, product: productOf(group, lookup) }] : [];
  });
}

function detailOf(run: Run, done: StepRun): Said[] {
  const slots = done.slots as DoseSlots;
  const from = { kind: "working", figure: `step ${done.number} moves` } as const;
  const said: Said[] = [];
  if (slots.figure?.choice === "dose") {
    const [dose] = dosesMeant(slots, done.movements[0]?.liquid.drugs ?? [], run.doses);
    if (dose?.given)
      said.push({ text: `dose: ${showQuantity(dose.given)} ${countedWords(dose)} ${drugIn(run, dose.drug)}`, from });
  }
  const into = done.movements.filter((m) => m.how === "push" || m.how === "transfer");
  const syringes = new Set(done.movements.map((m) => m.to));
  const drawnEach = into.length === 0 && syringes.size > 1 ? eachVolume(done) : undefined;
  if (drawnEach) said.push({ text: `${showQuantity(millilitres(drawnEach))} into each of ${syringes.size}`, from });
  const targets = new Set(into.map((m) => m.to));
  const [first] = into;
  if (first && targets.size > 1) {
    const alike = eachVolume(done);
    const each = alike
      ? `${showQuantity(millilitres(alike))} into each of ${targets.size}`
      : into.map((m) => showQuantity(millilitres(m.moved))).join(", ");
    said.push({ text: each, from });
  }
  const loads = loadsOf(done);
  if (loads) said.push({ text: loads, from });
  const sources = done.movements.filter((m) => m.how === "draw");
  if (new Set(sources.map((m) => m.from)).size > 1 && done.verb !== "reconstitute") {
    const list = sources.map((m) => showQuantity(millilitres(m.moved))).join(" + ");
    said.push({ text: `from one after another: ${list}`, from });
  }
  for (const [vessel, liquid] of done.after) {
    if (vessel.kind === "syringe" || !into.some((m) => m.to === vessel) || targets.size > 1) continue;
    said.push({ text: `${vessel.name} then holds ${showQuantity(millilitres(liquid.volume))}`, from });
  }
  for (const claim of done.claims.filter((c) => c.kind !== "moves")) {
    said.push({
      text: `${claim.kind} ${claimText(claim)}`,
      from: { kind: "written", where: `recipe ${run.recipe.name.name}` },
    });
  }
  return said;
}

/** The finished containers have a label of their own; what else is labelled on the way is written by hand, and must be told what. */
function labelWords(run: Run, done: StepRun, lookup: Lookup): Said[] {
  if (done.verb !== "label") return [];
  return [...done.after].flatMap(([vessel, liquid]) => {
    if (run.finalNames.has(vessel.name)) return [];
    const known = run.unknown ? [] : contentsOf(run, { ...vessel, liquid });
    const drugs = known.map((c) => withFigure(drugName(c.drug, lookup), statedStrength(c, run, vessel.name)));
    const others = run.unknown ? [] : [...liquid.fluids.keys()].filter((name) => !liquid.drugs.includes(name));
    const base = others.map((name) => fluidName(name, lookup)).join(" and ");
    // Where figures are not known, the writer is told to find them out, and nothing is left out in silence.
    const what = [drugs.join(", "), base].filter(Boolean).join(" in ") || "what it holds, and its strength";
    const volume = run.unknown || !liquid.volume.isPositive() ? "" : `; ${showQuantity(millilitres(liquid.volume))}`;
    const text = `Write on ${thingName(vessel)}: ${what}${volume}; date and time; initials; NOT TO BE GIVEN.`;
    return [{ text, from: { kind: "working", figure: `step ${done.number} labels` } }];
  });
}

/** `4.5 mmol of calcium in calcium gluconate`, `30 mg, counted as caffeine citrate, of caffeine`. */
function countedWords({ ion, as }: Run["doses"][number]): string {
  if (ion !== undefined) return `of ${ion} in`;
  return as === undefined ? "of" : `(counted as ${spaced(as)}) of`;
}

function applies(caution: Caution, run: Run, done: StepRun, policy: Policy): boolean {
  const kinds = new Set(done.touched.map((t) => (t.is === "vessel" ? t.kind : "")));
  const isInVial = kinds.has("vial") || kinds.has("powder-vial") || kinds.has("empty-vial");
  switch (caution.when) {
    case undefined:
      return true;
    case "ampoule":
      return kinds.has("ampoule");
    case "vial":
      return isInVial;
    case "bag":
      return kinds.has("bag") || kinds.has("empty-bag");
    case "port-again":
      return isPortEnteredAgain(done);
    case "needle-in-vial":
      // Where nothing is known to be on the syringe, it is printed rather than lost.
      return isInVial && (done.through.length === 0 || done.through.some(isNeedle));
    case "filter":
      return done.touched.some((t) => t.is === "part" && isFilter(t));
    case "sharp":
      return done.touched.some((t) => t.is === "part" && isSharp(t));
    case "small-dose":
      return done.moved?.isAtMost(policy.smallDose) ?? false;
    case "hazardous":
      return done.touched.some((t) => isHazardous(run, t));
    case "horizontal-flow":
      return policy.cabinet === "horizontal-laminar-flow";
    default:
      // A caution for a situation that this page does not know is printed rather than lost.
      return true;
  }
}

/** A port that the step draws from more than once. The stopper of a vial stays under the hand, unless the next syringe goes into it. */
function isPortEnteredAgain(step: StepRun): boolean {
  const isForSeveral = takenUp(step).size > 1;
  const ports = step.movements.flatMap(({ how, from }) =>
    how === "draw" && from && hasEntry(from) && (isForSeveral || !isSealedVial(from)) ? [from] : [],
  );
  return new Set(ports).size < ports.length;
}

/** By the product or by what it holds in the end: nothing becomes less hazardous on the way. */
function isHazardous(run: Run, thing: Thing): boolean {
  if (thing.is !== "vessel") return false;
  const own = thing.stock?.facts.one("drug")?.slots.drug.name;
  const drugs = [...thing.liquid.drugs, ...(own === undefined ? [] : [own])];
  return drugs.some((d) => run.setup.drugs.get(d)?.facts.one("hazard")?.slots.answer.choice === "hazardous");
}

function leftIn(run: Run, group: Group): Said | undefined {
  const vessels = vesselsOf(group).filter((v) => v.stock && isConsumable(v));
  if (run.unknown || vessels.length === 0) return undefined;
  const left = vessels.reduce((sum, v) => sum.plus(v.liquid.volume), Exact.zero);
  // What the label does not count may be left all the same.
  return left.isPositive() ? volumeFigure(`left ${group.name}`, left) : undefined;
}

/** What stays beside the preparation for the pharmacist. */
export function keepRows(run: Run, lookup: Lookup): KeepRow[] {
  const kept = [...run.groups.values()].filter((group) => group.things.some((t) => t.kept));
  return kept.map((group) => ({
    name: group.name,
    product: productOf(group, lookup),
    drawn: run.steps.flatMap((s) => {
      const isInto = s.verb === "draw" && s.movements.some((m) => m.to?.name === group.name);
      const each = isInto ? eachVolume(s) : undefined;
      if (each) {
        const value = millilitres(each);
        return [figure(`each ${s.number} moves`, value, `${showQuantity(value)} each`)];
      }
      return isInto && s.moved ? [volumeFigure(`step ${s.number} moves`, s.moved)] : [];
    }),
    left: leftIn(run, group),
  }));
}
