/**
 * A recipe at one order as a FHIR R4 (4.0.1) Bundle: the shape of the order, the finished preparation, the products that go in, and
 * the substances that all of them are made of. Pure.
 *
 * Invariants: nothing leaves while an error stands against it; the request is a draft and a proposal; every reference with an
 * address points into the bundle; every Ratio has both parts; no code of a terminology and no extension is written.
 */
import { safetyNotice } from "../../shared/report.ts";
import { orderInputs } from "../bench/order.ts";
import { runRecipe } from "../bench/run.ts";
import { fingerprintOf } from "../compare/fingerprint.ts";
import type { Library } from "../library.ts";
import { type CalendarDate, dateText } from "../model/dates.ts";
import type { Moment } from "../model/moments.ts";
import { showQuantity } from "../quantities/quantity.ts";
import { chooseLots } from "../sheet/materials.ts";
import { orderPoint } from "../sheet/order-point.ts";
import { isSheetRefusal, type SheetRefusal } from "../sheet/sheet.ts";
import { theRecipe } from "../sheet/sheet-data.ts";
import { errorsAgainst } from "../sheet/standing-findings.ts";
import { finishedMedications, type Wording } from "./fhir-preparation.ts";
import { requestOf } from "./fhir-request.ts";
import type { Bundle, Substance } from "./fhir-shapes.ts";
import { type Around, identifier, type Placed, stockMedications } from "./fhir-stocks.ts";
import { plainText } from "./fhir-values.ts";
import { type LeftOut, leftOut } from "./left-out.ts";

export const exportSchema = "misce-export/1";

export interface ExportRequest {
  recipe: string;
  /** Input of the order → what was typed: `weight` → `60kg`. */
  inputs: ReadonlyMap<string, string>;
  /** Material or stock → lots. */
  lots: ReadonlyMap<string, readonly string[]>;
}

/** What was written, and what was not. `bundle` apart, it is the JSON of the summary. */
export interface Exported extends LeftOut {
  recipe: string;
  title: string;
  asOf: string;
  at: string;
  fingerprint: string;
  /** How many resources of each kind. */
  resources: { [type: string]: number };
  /** Figures that are not exact in the export. */
  rounded: string[];
  bundle: Bundle;
}

/** Why nothing is exported though the recipe was found: errors that stand against it. */
export interface Withheld {
  withheld: string[];
}

export function isWithheld(value: object): value is Withheld {
  return "withheld" in value;
}

export function fhirOf(library: Library, request: ExportRequest): Exported | Withheld | SheetRefusal {
  const recipe = theRecipe(library, request.recipe);
  if (isSheetRefusal(recipe)) return recipe;
  const point = orderPoint(recipe, request.inputs);
  if (isSheetRefusal(point)) return point;
  const { lookup, policy, asOf } = library.surroundings();
  const run = runRecipe(recipe, lookup, policy, { point, overfill: "label" });
  const chosen = chooseLots(run, lookup, request.lots, lastMinuteOf(asOf));
  if (isSheetRefusal(chosen)) return chosen;
  const errors = errorsAgainst(library, recipe, [run]);
  const open = run.unknown ? ["Some figures could not be worked out; misce check says which."] : [];
  if (errors.length + open.length > 0) return { withheld: [...errors.map((f) => f.message), ...open] };
  const site = lookup.site()?.facts.one("name")?.slots.text.text;
  const substances = new Map<string, Placed<Substance>>();
  const losses = { rounded: new Set<string>(), asText: new Set<string>() };
  const around: Around = { run, lookup, naming: { site }, losses, substances };
  const at = orderInputs.flatMap((input) => {
    const value = point.get(input);
    return value ? [`${input} ${showQuantity(value)}`] : [];
  });
  const wording: Wording = {
    title: plainText(recipe.facts.one("title")?.slots.text.text ?? recipe.name.name),
    at: at.join(", "),
    fingerprint: fingerprintOf(recipe, library),
    safety: [safetyNotice],
  };
  const finished = finishedMedications(around, wording);
  const requests = finished.map((medication) => requestOf(medication, around, wording));
  const stocks = stockMedications(chosen, around);
  const entry = [...requests, ...finished, ...stocks, ...substances.values()].map(({ fullUrl, resource }) => ({
    fullUrl,
    resource,
  }));
  const name = [recipe.name.name, ...at].join(", ");
  const bundle: Bundle = {
    resourceType: "Bundle",
    identifier: identifier(around.naming, "export", name),
    type: "collection",
    entry,
  };
  const resources: { [type: string]: number } = {};
  for (const { resource } of entry) resources[resource.resourceType] = (resources[resource.resourceType] ?? 0) + 1;
  const { asText, missing } = leftOut(run);
  return {
    recipe: recipe.name.name,
    title: wording.title,
    asOf: dateText(asOf),
    at: wording.at,
    fingerprint: wording.fingerprint,
    resources,
    rounded: [...losses.rounded],
    asText: [...asText, ...losses.asText],
    missing,
    bundle,
  };
}

/** An export has a day and no hour; a lot that goes out in the course of that day is not sent on. */
function lastMinuteOf(date: CalendarDate): Moment {
  return { date, hour: 23, minute: 59, second: 0, offsetMinutes: 0, zone: "+00:00" };
}
