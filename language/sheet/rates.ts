/**
 * How fast the finished container is given, as a table of the sheet: the pump rate from the ordered time or the ordered rate, and
 * where the rate depends on the patient's weight, a row for each weight. How each figure comes about: working/rates.ts.
 */
import { isGivenAtOnce } from "../bench/given-at-once.ts";
import { inputRanges, pointAt } from "../bench/order.ts";
import { rowAt } from "../bench/order-rows.ts";
import { orderedRate } from "../bench/rates.ts";
import type { Run } from "../bench/run.ts";
import type { Vessel } from "../bench/things.ts";
import { Exact } from "../quantities/exact.ts";
import { inBase, type Quantity, showQuantity } from "../quantities/quantity.ts";
import { findUnit } from "../quantities/unit.ts";
import { alike, contentsOf } from "../working/contents.ts";
import { isPerWeight, type PumpRate, pumpRateOf, rateAtWeight } from "../working/rates.ts";
import { workingSaid } from "./figures.ts";
import { drugIn, spaced } from "./printed-names.ts";
import { figure, fixed } from "./said.ts";
import type { RateTable } from "./sheet.ts";

const pumpRate = "pump rate";

/** Undefined where no rate is ordered, or where figures are not known. */
export function rateTable(run: Run, isBatch: boolean): RateTable | undefined {
  const order = run.recipe.order;
  const [first, second] = alike(run);
  // Containers that differ would need a rate each; no sample of the trade makes such, so none is guessed.
  if (run.unknown || !order || !first || second || isGivenAtOnce(run.recipe)) return undefined;
  const { rate: stated, as } = orderedRate(run) ?? {};
  const ordered = stated?.quantity;
  const isByVolume = ordered === undefined || ordered.unit.dimension.key === "volume/time";
  return isByVolume ? byVolume(run, first.vessel) : byDrug(run, first.vessel, ordered, as, isBatch);
}

/** At an ordered mL/h, or the volume over the ordered time; with what runs of each drug in an hour. */
function byVolume(run: Run, vessel: Vessel): RateTable | undefined {
  const rate = pumpRateOf(run, vessel);
  if (!rate) return undefined;
  const rows = contentsOf(run, vessel).map(({ drug, amount }) => {
    const ofDrug = perHour(amount, inBase(rate.exact).over(vessel.liquid.volume));
    const value = ofDrug ? figure(`rate ${drug}`, ofDrug) : fixed("", "rates");
    return [fixed(drugIn(run, drug), "rates"), value, figure(pumpRate, rate.set)];
  });
  if (rows.length === 0) return undefined;
  const time = rowAt(run.recipe.order?.all("infuse-at"), run)
    ? undefined
    : rowAt(run.recipe.order?.all("infuse-over"), run)?.slots.time;
  return {
    caption: fixed(time ? `Given over ${time.written}` : "Pump rate as ordered", "rates"),
    head: ["Drug", "Drug per hour", "Pump rate"],
    rows,
    working: linesOf(rate),
  };
}

function linesOf({ lines }: PumpRate) {
  const worked = lines.filter((l) => l.origin !== "ordered");
  return workingSaid(worked, pumpRate);
}

/** In the unit of the order: potassium ordered in mmol runs in mmol an hour. */
function perHour({ value, unit }: Quantity, share: Exact): Quantity | undefined {
  const wanted = findUnit(`${unit.spelling}/h`).unit;
  return wanted && { value: value.times(share), unit: wanted };
}

/** A rate per kg shows the weights of the order around the patient's own. */
function byDrug(
  run: Run,
  vessel: Vessel,
  ordered: Quantity,
  as: string | undefined,
  isBatch: boolean,
): RateTable | undefined {
  const [content] = contentsOf(run, vessel);
  const weights = isPerWeight(ordered) ? weightsOf(run, isBatch) : [undefined];
  const rates = weights.flatMap((weight) => {
    const rate = rateAtWeight(run, vessel, ordered, weight, as);
    return rate ? [{ weight, rate }] : [];
  });
  // A row left out would let the reader take its neighbour's.
  if (!content || rates.length === 0 || rates.length < weights.length) return undefined;
  const form = as === undefined ? "" : ` as ${spaced(as)}`;
  return {
    caption: fixed(`${drugIn(run, content.drug)} at ${showQuantity(ordered)}${form}`, "rates"),
    head: ["Body weight", `Dose rate${form}`, "Pump rate"],
    rows: rates.map(({ weight, rate }) => [
      weight ? figure("weight", weight) : fixed("any weight", "rates"),
      figure("ordered rate", ordered),
      figure(pumpRate, rate.set),
    ]),
    working: rates.flatMap(({ rate }) => linesOf(rate)),
  };
}

const wholeTens = Exact.of(10);
/** More rows than this are not read across safely on one page. */
const mostRows = 24;

/**
 * For one patient only the own weight, since other patients' rates beside a patient's bag invite the wrong row. For a batch both ends
 * of the ordered range and the tens between (in the unit of the range).
 */
function weightsOf(run: Run, isBatch: boolean): Quantity[] {
  const weight = run.point.get("weight");
  if (!weight || !inputRanges(run.recipe).some((r) => r.input === "weight")) return [];
  const to = pointAt(run.recipe, "to").get("weight");
  const from = pointAt(run.recipe, "from").get("weight");
  if (!isBatch || !to || !from || to.unit !== from.unit) return [weight];
  const weights = [from];
  for (let w = from.value.plus(Exact.ratio(1, 1000)).upTo(wholeTens); w.isBelow(to.value); w = w.plus(wholeTens)) {
    weights.push({ value: w, unit: from.unit });
    if (weights.length > mostRows) return [from, to];
  }
  return inBase(to).equals(inBase(from)) ? weights : [...weights, to];
}
