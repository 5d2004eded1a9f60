/**
 * How far a finished dose can miss at worst: what each syringe may deliver by its tolerance, how far a person reads beside the mark,
 * what stays in tubing that was empty, what a label's strength may be off, and what a bag may be filled over its label. Each source is tried alone on the bench, to learn
 * which way it moves the dose and how much; then all of them together, each in its worst way.
 *
 * The worst case is the sum of what can go wrong at once, not what is likely.
 */
import type { Recipe } from "../model/declaration.ts";
import type { Lookup } from "../model/lookup.ts";
import type { Policy } from "../model/policy.ts";
import type { NameSlot } from "../model/slots.ts";
import { syringeTolerance } from "../model/syringe-tolerance.ts";
import { Exact } from "../quantities/exact.ts";
import { inBase, volumeOf } from "../quantities/quantity.ts";
import type { Errors } from "./bench.ts";
import type { AmountKind } from "./liquid.ts";
import type { Overfill } from "./overfill.ts";
import { type Run, runRecipe } from "./run.ts";
import type { StepRun } from "./step-run.ts";
import type { Vessel } from "./things.ts";

export type ErrorSource =
  | { what: "syringe"; step: number; syringe: Vessel; reading: Exact; allows: Exact }
  | { what: "reading"; step: number; syringe: Vessel; reading: Exact; allows: Exact }
  | { what: "tubing"; step: number; line: string; reading: Exact; allows: Exact }
  | { what: "strength"; stock: string; allows: Exact };

export interface Contribution {
  source: ErrorSource;
  /** Share of the dose by which it alone moves it, 0.04 for 4 %. */
  share: Exact;
}

export interface Miss {
  vessel: Vessel;
  drug: string;
  kind: AmountKind;
  nominal: Exact;
  low: Exact;
  high: Exact;
  /** Concentration at worst, amount in base unit per mL. */
  lowStrength: Exact;
  highStrength: Exact;
  /** The sources that move this dose, the greatest first. */
  contributions: readonly Contribution[];
}

type Tilt = (source: ErrorSource) => -1 | 0 | 1;

export function worstCase(run: Run, lookup: Lookup, policy: Policy): Miss[] {
  if (run.unknown) return [];
  const { recipe, point } = run;
  const sources = sourcesOf(run);
  const again = (tilt: Tilt, overfill: Overfill = "label") =>
    runRecipe(recipe, lookup, policy, { point, overfill, errors: errorsOf(sources, tilt), printed: run });
  const alone = sources.map((source) => ({
    source,
    up: again((s) => (s === source ? 1 : 0)),
    down: again((s) => (s === source ? -1 : 0)),
  }));
  const overfills: readonly Overfill[] = hasOverfill(recipe, lookup) ? ["label", "least", "most"] : ["label"];
  return run.finals.flatMap((vessel, k) =>
    vessel.liquid.drugs.flatMap((drug) => {
      const nominal = held(run, k, drug);
      if (!nominal?.isPositive()) return [];
      const effects = alone.map(({ source, up, down }) => {
        const more = (held(up, k, drug) ?? nominal).minus(nominal);
        const less = (held(down, k, drug) ?? nominal).minus(nominal);
        return { source, direction: more.compare(less), share: Exact.greatest(more.abs(), less.abs()).over(nominal) };
      });
      const towards = (sign: 1 | -1): Tilt => {
        const directions = new Map(effects.map((e) => [e.source, e.direction * sign]));
        return (source) => (directions.get(source) ?? 0) as -1 | 0 | 1;
      };
      const lows = overfills.map((o) => again(towards(-1), o));
      const highs = overfills.map((o) => again(towards(1), o));
      const all = [...lows, ...highs];
      const amounts = all.map((r) => held(r, k, drug) ?? nominal);
      // Strength is worst where more drug meets less liquid: each source is turned for it on its own.
      const strengths = strengthEnds(run, alone, again, overfills, k, drug);
      return [
        {
          vessel,
          drug,
          kind: run.setup.kinds.get(drug) ?? "mass",
          nominal,
          low: Exact.least(nominal, ...amounts),
          high: Exact.greatest(nominal, ...amounts),
          lowStrength: strengths.low,
          highStrength: strengths.high,
          contributions: effects
            .filter((e) => e.share.isPositive())
            .map(({ source, share }) => ({ source, share }))
            .sort((a, b) => b.share.compare(a.share)),
        },
      ];
    }),
  );
}

function strengthEnds(
  run: Run,
  alone: readonly { source: ErrorSource; up: Run; down: Run }[],
  again: (tilt: Tilt, overfill?: Overfill) => Run,
  overfills: readonly Overfill[],
  k: number,
  drug: string,
): { low: Exact; high: Exact } {
  const strength = (r: Run) => {
    const volume = r.finals[k]?.liquid.volume;
    return volume?.isPositive() ? (held(r, k, drug) ?? Exact.zero).over(volume) : Exact.zero;
  };
  const directions = new Map(alone.map(({ source, up, down }) => [source, strength(up).compare(strength(down))]));
  const tilted =
    (sign: 1 | -1): Tilt =>
    (source) =>
      ((directions.get(source) ?? 0) * sign) as -1 | 0 | 1;
  const ends = overfills.flatMap((o) => [again(tilted(-1), o), again(tilted(1), o)]).map(strength);
  const own = strength(run);
  return { low: Exact.least(own, ...ends), high: Exact.greatest(own, ...ends) };
}

function held(run: Run, final: number, drug: string): Exact | undefined {
  return run.finals[final]?.liquid.amounts.get(drug);
}

/** Every measured draw with what its syringe and its reader may miss, and every stock with a stated tolerance. */
export function sourcesOf(run: Run): ErrorSource[] {
  const sources: ErrorSource[] = [];
  for (const step of run.steps) {
    for (const [syringe, loads] of readings(step)) {
      const { capacity, graduation } = syringe;
      const reading = sum(loads);
      if (capacity) {
        const allows = sum(loads.map((load) => syringeTolerance(capacity, load)));
        sources.push({ what: "syringe", step: step.number, syringe, reading, allows });
      }
      if (graduation?.isPositive()) {
        const allows = graduation.over(Exact.of(2)).times(Exact.of(loads.length));
        sources.push({ what: "reading", step: step.number, syringe, reading, allows });
      }
    }
  }
  sources.push(...tubingOf(run));
  const stocks = new Set<string>();
  for (const { item } of run.groups.values()) {
    if (item?.kind !== "stock" || stocks.has(item.name.name)) continue;
    stocks.add(item.name.name);
    const share = item.facts.one("strength-tolerance")?.slots.share.quantity;
    if (share) sources.push({ what: "strength", stock: item.name.name, allows: inBase(share) });
  }
  return sources;
}

/** Tubing that a transfer finds empty and fills: what it holds by its own fact may never arrive. Primed tubing is full already, and what is rinsed through arrives. */
function tubingOf(run: Run): ErrorSource[] {
  const filled = new Set<string>();
  const sources: ErrorSource[] = [];
  for (const step of run.steps) {
    const slots = step.slots as { device?: NameSlot; line?: NameSlot };
    const line = step.verb === "prime" ? slots.line?.name : step.verb === "transfer" ? slots.device?.name : undefined;
    if (line === undefined || step.skipped || filled.has(line)) continue;
    filled.add(line);
    const [first] = step.verb === "transfer" ? step.movements : [];
    const item = run.groups.get(line)?.item;
    const holds = item?.kind === "device" && volumeOf(item.facts.one("priming-volume")?.slots.volume.quantity);
    if (first?.moved.isPositive() && holds && !isRinsed(run, step, line, holds))
      sources.push({ what: "tubing", step: step.number, line, reading: first.moved, allows: holds });
  }
  return sources;
}

/** Plain fluid goes the same way afterwards, as much of it as the tubing holds or more. */
function isRinsed(run: Run, carried: StepRun, line: string, holds: Exact): boolean {
  const target = carried.movements[0]?.to;
  return run.steps.some(
    ({ number, verb, slots, movements }) =>
      verb === "transfer" &&
      number > carried.number &&
      (slots as { device?: NameSlot }).device?.name === line &&
      movements.some((m) => m.to === target && m.liquid.drugs.length === 0 && m.moved.isAtLeast(holds)),
  );
}

/**
 * What a step reads on each syringe: a draw from one or several containers in one pull, or a part pushed out by the scale. Of
 * several readings in one step (each of a set) the smallest, which misses by the greatest share; of several loads into one
 * container each, since each may miss the same way.
 */
function readings(step: StepRun): Map<Vessel, Exact[]> {
  const found = new Map<Vessel, Exact[]>();
  const open = new Map<Vessel, Exact>();
  const close = (syringe: Vessel) => {
    const reading = open.get(syringe);
    open.delete(syringe);
    if (!reading?.isPositive()) return;
    const known = found.get(syringe);
    if (!known) found.set(syringe, [reading]);
    else if (isOneTarget(step, syringe)) known.push(reading);
    else if (reading.isBelow(known[0]!)) found.set(syringe, [reading]);
  };
  for (const { how, to, from, moved } of step.movements) {
    if ((how === "draw" || how === "waste") && to?.kind === "syringe" && from !== to) {
      open.set(to, (open.get(to) ?? Exact.zero).plus(moved));
    } else if (how === "push" && from?.kind === "syringe") {
      if (open.has(from)) close(from);
      else if (step.after.get(from)?.volume.isPositive() || isPushedInParts(step, from)) {
        open.set(from, moved);
        close(from);
      }
    }
  }
  for (const syringe of [...open.keys()]) close(syringe);
  return found;
}

/** Whether all that the step pushes from the syringe goes into one container. */
function isOneTarget(step: StepRun, syringe: Vessel): boolean {
  return new Set(step.movements.filter((m) => m.how === "push" && m.from === syringe).map((m) => m.to)).size === 1;
}

function sum(volumes: readonly Exact[]): Exact {
  return volumes.reduce((all, volume) => all.plus(volume), Exact.zero);
}

/** Whether the step pushes from the syringe more than once: each push is then read by the scale. */
function isPushedInParts(step: StepRun, syringe: Vessel): boolean {
  return step.movements.filter((m) => m.how === "push" && m.from === syringe).length > 1;
}

function errorsOf(sources: readonly ErrorSource[], tilt: Tilt): Errors {
  const strength = new Map<string, Exact>();
  const volumes = new Map<string, Exact>();
  const stays = new Map<number, Exact>();
  for (const source of sources) {
    const way = Exact.of(tilt(source));
    if (source.what === "strength") {
      strength.set(source.stock, Exact.one.plus(source.allows.times(way)));
      continue;
    }
    if (source.what === "tubing") {
      if (tilt(source) < 0) stays.set(source.step, source.allows);
      continue;
    }
    const key = `${source.step} ${source.syringe.name} ${source.syringe.index}`;
    const share = source.allows.times(way).over(source.reading);
    volumes.set(key, (volumes.get(key) ?? Exact.one).plus(share));
  }
  return {
    volume: (step, syringe, reading) =>
      reading.times(
        Exact.greatest(volumes.get(`${step.number} ${syringe.name} ${syringe.index}`) ?? Exact.one, Exact.zero),
      ),
    strength,
    stays: (step) => stays.get(step.number) ?? Exact.zero,
  };
}

function hasOverfill(recipe: Recipe, lookup: Lookup): boolean {
  return recipe.materials.some((m) => lookup.find("stock", m.item.name)?.facts.one("overfill"));
}
