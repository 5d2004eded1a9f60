/** The working of the two figures that look beyond one run: how long a container may be kept, and how far its dose can miss. */

import { type Surroundings, useLimits } from "../bench/beyond-use.ts";
import { rowsAt } from "../bench/order-rows.ts";
import type { Run } from "../bench/run.ts";
import type { Vessel } from "../bench/things.ts";
import { type ErrorSource, type Miss, worstCase } from "../bench/uncertainty.ts";
import { Exact } from "../quantities/exact.ts";
import { showQuantity } from "../quantities/quantity.ts";
import { amountIn, concentrationIn, substanceIn } from "./amount-words.ts";
import { alike, contentsOf, whichContainer } from "./contents.ts";
import { line, millilitres, shown, type Working, type WorkingLine } from "./working.ts";

/** For each finished container and each place where the recipe keeps it: all limits, the shortest first, and which binds. */
export function useWithinWorkings(run: Run, around: Surroundings): Working[] {
  if (run.unknown) return [];
  return alike(run).flatMap(({ name, vessel }) => {
    const preparation = run.recipe.preparations.find((p) => p.name.name === name);
    return rowsAt(preparation?.facts.all("use-within") ?? [], run).map(({ slots }): Working => {
      const at = slots.place.name;
      const { all, binding, open } = useLimits(run, vessel, at, around);
      const lines = all.map((limit) => {
        const only = limit.onlyIf ? `, only if ${limit.onlyIf}` : "";
        const isTold = /memory|recalled/.test(limit.source);
        const memory = limit.footing === "recalled" && !isTold ? ", from memory, not seen in the text" : "";
        const binds = limit === binding ? "; this one binds" : "";
        const aside = limit.limits ? "" : "; not of the finished container";
        const source = `(${limit.source}${memory})`;
        const text = `${limit.written} ${limit.counted} by ${limit.name}${only} ${source}${binds}${aside}`;
        return line("limited", text, limit.time);
      });
      return {
        kind: "use-within",
        of: [...whichContainer(run, vessel), at],
        key: `use-within ${name} ${at}`,
        label: `Longest use of ${name} kept at ${at}`,
        step: undefined,
        value: binding?.time,
        text: binding?.written ?? "not limited by what is known",
        lines: [
          ...lines,
          line("stated", `the recipe states ${slots.time.written}`, slots.time.quantity),
          ...open.map((reason) => line("remark", `not brought in: ${reason}`)),
        ],
      };
    });
  });
}

/** How far the dose can miss if everything goes wrong one way at once, and which source moves it most. */
export function worstCaseWorkings(run: Run, around: Surroundings): Working[] {
  const shownOnce = new Set(alike(run).map((a) => a.vessel));
  return worstCase(run, around.lookup, around.policy)
    .filter((miss) => [...shownOnce].some((v) => v.name === miss.vessel.name && v.index === miss.vessel.index))
    .map((miss) => worstCaseWorking(run, miss));
}

function worstCaseWorking(run: Run, miss: Miss): Working {
  const { vessel, drug, kind, nominal, low, high } = miss;
  const content = contentsOf(run, vessel).find((c) => c.drug === drug);
  const of = substanceIn(run, drug);
  const amount = (value: Exact) => amountIn(value, kind, content?.amount.unit, of, content?.ion);
  const strength = (perMl: Exact) =>
    concentrationIn(perMl, Exact.one, kind, content?.concentration.unit, of, content?.ion);
  const [least, most] = [amount(low), amount(high)];
  const sources = miss.contributions.map(({ source, share }) =>
    line("computed", `${sourceText(source)}: moves the dose by ${percent(share)}`),
  );
  const ends = [
    endLine("at least", least, nominal, low),
    endLine("at most", most, nominal, high),
    line(
      "computed",
      `concentration ${shown(strength(miss.lowStrength))} to ${shown(strength(miss.highStrength))} at worst`,
    ),
  ];
  const open = throughTubing(run, miss);
  const counted =
    open.lines.length > 0 ? "nothing else measured or declared here" : "nothing measured or declared here";
  const none = line("remark", `${counted} can move it`);
  return {
    kind: "worst-case",
    of: [drug, ...whichContainer(run, vessel)],
    key: `worst ${drug} ${vessel.name} ${vessel.index}`,
    label: `Worst case of ${drug} in ${vessel.name}`,
    step: undefined,
    value: undefined,
    text: `${showQuantity(least)} to ${showQuantity(most)}${open.movesDose ? ", what tubing moves left aside" : ""}`,
    lines: [
      line("computed", `as worked out: ${shown(amount(nominal))}`, amount(nominal)),
      ...open.lines,
      ...(sources.length > 0 ? sources : [none]),
      line("remark", "all of them at once, each in its worst way:"),
      ...ends,
    ],
  };
}

/**
 * What tubing carries has no scale: nobody can say how far it misses, and no figure may look as if it were counted. Diluent in the
 * finished container moves its strength alone; in a container that it is drawn from, the dose as well.
 */
function throughTubing(run: Run, { vessel, drug }: Miss): { lines: WorkingLine[]; movesDose: boolean } {
  const feeding = feeders(run, vessel);
  const moves = run.steps.flatMap(({ number, movements }) => {
    const first = movements.find((m) => m.how === "transfer" && m.to && feeding.has(m.to));
    return first ? [{ number, first }] : [];
  });
  const list = moves
    .map(({ number, first }) => `${showQuantity(millilitres(first.moved))} in step ${number}`)
    .join(", ");
  const text = `not counted: ${list}, through tubing, where nothing says how exactly it is measured`;
  return {
    lines: moves.length > 0 ? [line("remark", text)] : [],
    movesDose: moves.some(({ first }) => first.to !== vessel || first.liquid.amounts.get(drug)?.isPositive()),
  };
}

/** The container and all that its content came through. */
function feeders(run: Run, vessel: Vessel): ReadonlySet<Vessel> {
  const found = new Set([vessel]);
  const movements = run.steps.flatMap((step) => step.movements).reverse();
  for (const { from, to } of movements) if (from && to && found.has(to)) found.add(from);
  return found;
}

function endLine(word: string, end: ReturnType<typeof amountIn>, nominal: Exact, value: Exact): WorkingLine {
  const off = value.minus(nominal).over(nominal);
  const side = off.isZero() ? "no change" : `${percent(off.abs())} ${off.isNegative() ? "below" : "above"}`;
  return line("computed", `${word} ${shown(end)} (${side})`, end);
}

/** Shares are told to three figures. */
function percent(share: Exact): string {
  return `${share.times(Exact.of(100)).roundedToDigits(3).toText()} %`;
}

function sourceText(source: ErrorSource): string {
  if (source.what === "strength")
    return `the content of ${source.stock} may be ${percent(source.allows)} off its label`;
  const reading = showQuantity(millilitres(source.reading));
  const allows = showQuantity(millilitres(source.allows));
  if (source.what === "tubing")
    return `step ${source.step}, ${reading} through ${source.line}: up to ${allows} stay in it`;
  const where = `step ${source.step}, ${reading} on ${source.syringe.name}`;
  return source.what === "syringe"
    ? `${where}: the syringe may deliver ${allows} more or less (ISO 7886-1)`
    : `${where}: read up to half a mark, ${allows}, beside it`;
}
