import type { Run } from "../../bench/run.ts";
import { thingName } from "../../bench/things.ts";
import { type ErrorSource, type Miss, sourcesOf, worstCase } from "../../bench/uncertainty.ts";
import type { Spot } from "../../model/slots.ts";
import { toleranceSource } from "../../model/syringe-tolerance.ts";
import { orderText } from "../../proof/range-text.ts";
import { Exact } from "../../quantities/exact.ts";
import { recipeCheck } from "../check.ts";
import { example } from "../example.ts";
import { amount, ml, percent } from "../showing.ts";

const worstCaseStated: [string, string] = [
  "  tolerance      dose 5 %\n",
  "  tolerance      dose 5 %\n  tolerance      worst-case 8 %\n",
];

interface Missed {
  at: Spot;
  miss: Miss;
  low: Exact;
  high: Exact;
  allowed: Exact;
  /** The order at which it is worst, where several of a range miss. */
  worstFor: string;
}

export const doseCanMiss = recipeCheck<Missed>({
  name: "dose-can-miss",
  family: "volumes",
  severity: "warning",
  across: true,
  title: "At worst the dose misses by more than the site accepts",
  why: "What a syringe may deliver beside its scale, what is read beside the mark, what stays in tubing and what a label may be off can all fall on one side.",
  source: toleranceSource,
  bad: example(
    worstCaseStated,
    ["    dose            4 g per bag\n", "    dose            1 g per bag\n"],
    ["draw 4 g from mag into syringe  = 8 mL", "draw 1 g from mag into syringe  = 2 mL"],
    ["    concentration  37.04 mg/mL", "    concentration  9.804 mg/mL"],
    ["magnesium-4g {", "magnesium-1g {"],
    ["Magnesium sulfate 4 g in", "Magnesium sulfate 1 g in"],
  ),
  good: example(worstCaseStated),
  *find({ runs, lookup, policy, range }) {
    // Tolerances of syringes alone reach 5 %; how much of a worst case is accepted, only the site can say.
    const allowed = policy.tolerance["worst-case"];
    if (!allowed) return;
    const worst = new Map<string, Missed & { off: Exact }>();
    for (const run of runs) {
      if (run.overfill !== "label" || !mayMiss(run, allowed)) continue;
      for (const miss of worstCase(run, lookup, policy)) {
        const low = miss.low.minus(miss.nominal).over(miss.nominal);
        const high = miss.high.minus(miss.nominal).over(miss.nominal);
        if (low.abs().isAtMost(allowed) && high.isAtMost(allowed)) continue;
        const source = miss.contributions[0]?.source;
        const step = source && source.what !== "strength" ? run.steps[source.step - 1] : undefined;
        const at = step?.step ?? miss.vessel.material.name;
        const off = Exact.greatest(low.abs(), high);
        // Over a range the same draw is told once, for whom it is worst.
        const key = `${at.start} ${miss.vessel.name} ${miss.drug}`;
        if (worst.get(key)?.off.isAtLeast(off)) continue;
        worst.set(key, { at, miss, low, high, allowed, off, worstFor: range ? orderText(range.axes, run.point) : "" });
      }
    }
    yield* worst.values();
  },
  say: ({ miss, low, high, allowed, worstFor }) => ({
    text: `${worstFor ? `Worst for ${worstFor}: there` : "At worst"} ${thingName(miss.vessel)} holds ${amount(miss.low, miss.kind)} to ${amount(miss.high, miss.kind)} of ${miss.drug} (${percent(low)} to +${percent(high)}); the site accepts ${percent(allowed)}. Most of it comes from ${most(miss)}.`,
  }),
});

/** A cheap bound first: no source moves a dose by much more than its own share, so small sums need no further run. */
function mayMiss(run: Run, allowed: Exact): boolean {
  if (run.unknown) return false;
  let sum = Exact.zero;
  for (const source of sourcesOf(run)) {
    sum = sum.plus(source.what === "strength" ? source.allows : source.allows.over(source.reading));
  }
  return sum.times(Exact.ratio(12, 10)).isAbove(allowed);
}

function most({ contributions }: Miss): string {
  const [first] = contributions;
  return first ? `${sourceText(first.source)}: ${percent(first.share)}. ${remedy(first.source)}` : "several small ones";
}

function sourceText(source: ErrorSource): string {
  if (source.what === "strength") return `the stated tolerance of ${source.stock}`;
  if (source.what === "tubing") return `the ${ml(source.allows)} that stay in ${source.line} in step ${source.step}`;
  const where = `${ml(source.reading)} on ${source.syringe.name} in step ${source.step}`;
  return source.what === "syringe" ? `the tolerance of the syringe at ${where}` : `reading ${where} between two marks`;
}

function remedy(source: ErrorSource): string {
  if (source.what === "strength") return "Nothing at the bench makes it smaller";
  if (source.what === "tubing")
    return "Rinse it through with diluent that counts in the volume, or prime it and make that much more";
  return "A smaller syringe, or a dilution first, makes it smaller";
}
