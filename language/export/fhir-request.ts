/**
 * The order's shape as a MedicationRequest: route, access, dose, rate. Always a draft and a proposal, for nobody: an order is written
 * by a prescriber for a patient, and this is neither.
 */
import { doseRule } from "../bench/dose-rules.ts";
import { rowAt } from "../bench/order-rows.ts";
import { orderedRate } from "../bench/rates.ts";
import type { Run } from "../bench/run.ts";
import type { Vessel } from "../bench/things.ts";
import { Exact } from "../quantities/exact.ts";
import { hoursOfGiving } from "../quantities/hours.ts";
import type { Quantity as OwnQuantity } from "../quantities/quantity.ts";
import { findUnit } from "../quantities/unit.ts";
import { noteLines, orderLines } from "../sheet/order-lines.ts";
import { givingOf } from "../working/giving.ts";
import type { FinishedMedication, Wording } from "./fhir-preparation.ts";
import type { Dosage, MedicationRequest, Ratio } from "./fhir-shapes.ts";
import { type Around, identifier, type Placed, referenceTo } from "./fhir-stocks.ts";
import { millilitres, narrative, plainText, quantityOf, ratioOf, urn } from "./fhir-values.ts";
import { isRateOfOtherForm } from "./rate-form.ts";

export const notAnOrder =
  "This is the shape of an order taken from a recipe. It is no order and no prescription, and it is for no patient.";

export function requestOf(medication: FinishedMedication, around: Around, wording: Wording): Placed<MedicationRequest> {
  const { run, lookup, naming } = around;
  const { recipe } = run;
  const lines = orderLines(run, recipe.chunk.text, lookup).map(({ label, value }) =>
    plainText(`${label}: ${value.text}`),
  );
  const notes = noteLines(run, lookup).map((note) => plainText(note.text));
  const which = [
    recipe.name.name,
    wording.fingerprint,
    wording.at,
    medication.vessel.name,
    String(medication.vessel.index),
  ];
  return {
    fullUrl: urn(naming.site ?? "", "request", ...which),
    resource: {
      resourceType: "MedicationRequest",
      text: narrative([`Proposal: ${wording.title}`, notAnOrder, ...lines, ...wording.safety]),
      identifier: [identifier(naming, "recipe", recipe.name.name)],
      status: "draft",
      intent: "proposal",
      medicationReference: referenceTo(medication),
      subject: { display: "No patient: the shape of an order, not an order" },
      note: [notAnOrder, ...wording.safety, ...lines, ...notes].map((text) => ({ text })),
      dosageInstruction: [dosageOf(medication, around, lines)],
    },
  };
}

function dosageOf({ vessel }: FinishedMedication, around: Around, lines: readonly string[]): Dosage {
  const { run, losses } = around;
  const { order } = run.recipe;
  const route = order?.one("route")?.slots.route.name;
  const access = rowAt(order?.all("access"), run)?.slots.access.choice;
  const maximum = doseRule("maximum", run.recipe, run.point, run.doses[0], around.lookup)?.quantity;
  const dose = doseOf(run, vessel);
  const perTime = dosePerTime(around);
  const over = timeOf(rowAt(order?.all("infuse-over"), run)?.slots.time.quantity);
  const at = isRateOfOtherForm(run) ? undefined : orderedRate(run)?.rate.quantity;
  const isPart = order?.one("use")?.slots.use.choice === "part-of-container";
  const rate = rateOf(run, vessel.liquid.volume, over, isPart, around);
  const doseAndRate = {
    ...(dose ? { doseQuantity: quantityOf(dose, "dose", losses) } : {}),
    // R4 has one rate a dosage: an ordered rate goes before one that follows from the time.
    ...(at
      ? { rateQuantity: quantityOf(at, "rate", losses) }
      : (perTime ?? rate)
        ? { rateRatio: (perTime ?? rate)! }
        : {}),
  };
  return {
    text: plainText(
      [...lines.filter((l) => /^(Dose|Additive|Concentration|At most|Route|Vein|Give|Use)/.test(l))].join("; "),
    ),
    ...(over ? { timing: { repeat: { duration: over.number, durationUnit: over.code } } } : {}),
    ...(access ? { site: { text: `${access} vein` } } : {}),
    ...(route === undefined ? {} : { route: { text: plainText(route.replaceAll("-", " ")) } }),
    ...(Object.keys(doseAndRate).length > 0 ? { doseAndRate: [doseAndRate] } : {}),
    ...(maximum && dose ? { maxDosePerAdministration: quantityOf(maximum, "maximum dose", losses) } : {}),
  };
}

/**
 * The one dose of a container, of the substance itself. Several drugs, an ion's amount or another salt's stay in the text. So does the
 * content of a container that is titrated, runs at a rate without an end or serves for boluses: a program would read it as what to give.
 */
function doseOf(run: Run, vessel: Vessel): OwnQuantity | undefined {
  const [dose, second] = run.doses;
  const giving = givingOf(run, vessel);
  if (giving !== "one dose" && giving !== "part of it") return undefined;
  if (!dose?.given || second || dose.byConcentration || "time" in dose.per) return undefined;
  return isOfTheSubstance(dose, run) ? dose.given : undefined;
}

/** The ingredient tells the counted form; an ion's or another salt's amount beside it would be taken for that. */
function isOfTheSubstance({ ion, as, drug }: Run["doses"][number], run: Run): boolean {
  return ion === undefined && (as === undefined || as === run.setup.drugs.get(drug)?.substance.base);
}

/** `dose 12 g per 24 h` is a rate by its own words. */
function dosePerTime({ run, losses }: Around): Ratio | undefined {
  const [dose, second] = run.doses;
  if (!dose?.given || second || !("time" in dose.per) || !isOfTheSubstance(dose, run)) return undefined;
  const time = dose.per.time.quantity;
  return time ? ratioOf(dose.given, time, "dose in a time", losses) : undefined;
}

/** The whole container over its time; a part of one has its own volume, which a rate table tells. */
function rateOf(
  run: Run,
  volume: Exact,
  over: Duration | undefined,
  isPart: boolean,
  { losses }: Around,
): Ratio | undefined {
  if (!over || isPart || run.unknown) return undefined;
  return ratioOf(millilitres(volume), over.quantity, "rate", losses);
}

interface Duration {
  number: number;
  code: string;
  quantity: OwnQuantity;
}

/** R4's durations are counted in s, min, h, d, wk; a day of giving is 24 h here as it is on the bench. */
function timeOf(time: OwnQuantity | undefined): Duration | undefined {
  const hours = hoursOfGiving(time);
  if (!time || !hours) return undefined;
  const own = ["s", "min", "h"].includes(time.unit.ucum) ? time : undefined;
  const quantity = own ?? { value: hours, unit: findUnit("h").unit! };
  const number = Number(quantity.value.toText());
  return Exact.of(String(number)).equals(quantity.value) ? { number, code: quantity.unit.ucum, quantity } : undefined;
}
