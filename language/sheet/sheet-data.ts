/**
 * The sheet of a recipe for one order: runs the recipe on the bench at the point asked for, and gathers what the bench, the recipe,
 * the shelf and the findings say into plain data. Pure: the moment of preparation comes in as text, nothing is read or written.
 *
 * Invariant: a sheet whose recipe, or anything that it rests on, carries an error is marked not for use, whatever was asked for.
 */

import { safetyNotice } from "../../shared/report.ts";
import { type Run, runRecipe } from "../bench/run.ts";
import { vesselsOf } from "../bench/setup.ts";
import { allOf } from "../bench/spoken.ts";
import { versionWords } from "../compare/approvals.ts";
import { algorithmOf, fingerprintOf, isFingerprintOf } from "../compare/fingerprint.ts";
import type { Library } from "../library.ts";
import { compareDates, dateText, isDateFault } from "../model/dates.ts";
import type { Declaration, Recipe } from "../model/declaration.ts";
import { isGtinFault, readGtin } from "../model/gtin.ts";
import { type Moment, parseMoment } from "../model/moments.ts";
import { nearNames } from "../model/near.ts";
import { finishedPieces } from "../working/pieces.ts";
import { type BeyondUse, beyondUseOf, clockText } from "./beyond-use.ts";
import { sheetFigureRows } from "./figures.ts";
import { codeFault } from "./gs1-element-string.ts";
import { labelOf } from "./label.ts";
import { type ChosenLots, chooseLots, materialRows } from "./materials.ts";
import { noteLines, orderLines, preparationLines } from "./order-lines.ts";
import { inputsOfBatch, orderPoint } from "./order-point.ts";
import { drugIn } from "./printed-names.ts";
import { inPrintedNames } from "./product.ts";
import { rateTable } from "./rates.ts";
import { fixed, type Said, written } from "./said.ts";
import {
  type BeyondUseRow,
  isSheetRefusal,
  type Sheet,
  type SheetApproval,
  type SheetRefusal,
  type SheetRequest,
} from "./sheet.ts";
import { standingFindings } from "./standing-findings.ts";
import { keepRows, stepRows } from "./steps.ts";

/** More than this many finished containers from one sheet is a slip of the finger. */
const mostMade = 100;

export interface PlacedRecipe {
  name: string;
  file: string;
}

function placed(library: Library, declarations: readonly Declaration[]): PlacedRecipe[] {
  return declarations.flatMap((d) => {
    const file = library.spanOf({ chunk: d.chunk, start: 0, end: 0 })?.file;
    return d.kind === "recipe" && file !== undefined ? [{ name: d.name.name, file }] : [];
  });
}

/** All recipes of the library with the file each stands in. Reads every one of them; where a name or a file is known, ask by that. */
export function recipesOf(library: Library): PlacedRecipe[] {
  return placed(library, library.ofKind("recipe"));
}

export function recipesNamed(library: Library, name: string): PlacedRecipe[] {
  return placed(library, library.declared(name));
}

export function recipesIn(library: Library, file: string): PlacedRecipe[] {
  return placed(
    library,
    library.chunks(file).flatMap((chunk) => chunk.reading.declarations),
  );
}

/** @returns the sheet, or why none can be made */
export function sheetOf(library: Library, request: SheetRequest): Sheet | SheetRefusal {
  const recipe = theRecipe(library, request.recipe);
  if (isSheetRefusal(recipe)) return recipe;
  const before = library.surroundings();
  const now = parseMoment(request.at, request.timeZone ?? before.policy.timeZone);
  if (isDateFault(now)) return { refusal: `--at: ${now.message}` };
  // Lots and deviations are judged on the day of preparation; whoever holds the library finds its own day again afterwards.
  const isOtherDay = compareDates(now.date, before.asOf) !== 0;
  if (!isOtherDay) return onTheDay(library, request, recipe, now);
  library.setAsOf(dateText(now.date));
  try {
    return onTheDay(library, request, recipe, now);
  } finally {
    library.setAsOf(dateText(before.asOf));
  }
}

function onTheDay(library: Library, request: SheetRequest, recipe: Recipe, now: Moment): Sheet | SheetRefusal {
  const codes = codesFault(request, recipe);
  if (codes) return codes;
  const { lookup, policy } = library.surroundings();
  const point = orderPoint(recipe, request.batch ? inputsOfBatch(recipe, request.inputs, lookup) : request.inputs);
  if (isSheetRefusal(point)) return point;
  const run = runRecipe(recipe, lookup, policy, { point, overfill: "label" });
  const made = madeOf(run, request);
  if (isSheetRefusal(made)) return made;
  const chosen = chooseLots(run, lookup, request.lots, now);
  if (isSheetRefusal(chosen)) return chosen;
  return gather(library, { request, recipe, run, now, chosen, ...made });
}

interface Asked {
  request: SheetRequest;
  recipe: Recipe;
  run: Run;
  now: Moment;
  chosen: ChosenLots;
  runs: number;
  count: number;
}

/** The one recipe of a name, or why there is none. */
export function theRecipe(library: Library, name: string): Recipe | SheetRefusal {
  const found = library.declared(name).filter((d): d is Recipe => d.kind === "recipe");
  const [only, second] = found;
  if (second) return { refusal: `${found.length} recipes are called ${name}. Give one of them another name first.` };
  if (only) return only;
  const near = nearNames(
    name,
    library.ofKind("recipe").map((d) => d.name.name),
  );
  const hint = near.length > 0 ? ` Did you mean ${near.join(" or ")}?` : "";
  return { refusal: `No recipe is called "${name}" here.${hint}` };
}

function codesFault(request: SheetRequest, recipe: Recipe): SheetRefusal | undefined {
  const { number, gtin } = request;
  const most = gtin === undefined ? 90 : 20;
  const fault = number === undefined ? undefined : number === "" ? "it is empty" : codeFault(number, most);
  if (fault) return { refusal: `--number is "${number}": ${fault}.` };
  const read = gtin === undefined ? undefined : readGtin(gtin);
  if (read && isGtinFault(read)) return { refusal: `--gtin: ${read.message}` };
  const name = codeFault(recipe.name.name, 90);
  return name ? { refusal: `The recipe's name cannot stand in the bar code: ${name}.` } : undefined;
}

/** One run makes what the recipe says; `--bags` asks for whole runs. */
function madeOf(run: Run, { bags }: SheetRequest): { runs: number; count: number } | SheetRefusal {
  const each = Math.max(
    1,
    [...run.finalNames].reduce((n, name) => n + vesselsOf(run.groups.get(name)).length, 0),
  );
  if (bags === undefined) return { runs: 1, count: each };
  if (!/^[1-9]\d*$/.test(bags)) return { refusal: `--bags is "${bags}". Write a whole number above zero.` };
  const count = Number(bags);
  if (count > mostMade)
    return { refusal: `--bags is ${bags}; one sheet covers at most ${mostMade}. Make several sheets.` };
  if (count % each === 0) return { runs: count / each, count };
  return {
    refusal: `${run.recipe.name.name} makes ${each} at a time; ${count} is no whole number of runs. Ask for a multiple of ${each}, or write a recipe for ${count}.`,
  };
}

function gather(library: Library, asked: Asked): Sheet {
  const { request, recipe, run, now, chosen, runs, count } = asked;
  const around = library.surroundings();
  const { lookup, policy } = around;
  const { standing, silenced } = findings(library, recipe, run);
  const limits = new Map(recipe.preparations.map((p) => [p.name.name, beyondUseOf(run, p, now, chosen, around)]));
  const title = recipe.facts.one("title")?.slots.text.text ?? recipe.name.name;
  const site = lookup.site()?.facts.one("name")?.slots.text.text;
  const own = fingerprintOf(recipe, library);
  const prepared: Said = { text: clockText(now), from: { kind: "asked", what: "at" } };
  const sheet: Sheet = {
    recipe: recipe.name.name,
    title: written(title, `recipe ${recipe.name.name}`),
    site: site === undefined ? undefined : written(site, "site"),
    variant: request.batch ? "batch" : "patient",
    number: givenSaid(request.number, "number"),
    prepared,
    timeZone: zoneSaid(now.zone, request, library),
    fingerprint: givenSaid(request.fingerprint, "fingerprint") ?? ofMeaning(own, "fingerprint"),
    revision: givenSaid(request.revision, "revision"),
    approvals: approvalsOf(request.approvals ?? [], dateText(now.date), recipe, library),
    notForUse: [...standing, ...unknownReasons(run)],
    silenced,
    order: orderLines(run, recipe.chunk.text, lookup),
    runs,
    made: madeSaid(run, runs, count),
    materials: materialRows(run, runs, lookup, chosen, now),
    figures: sheetFigureRows(run, runs, around),
    steps: stepRows(run, lookup, policy),
    keep: keepRows(run, lookup),
    preparation: recipe.preparations.flatMap((p) => preparationLines(run, p, recipe.preparations.length > 1)),
    beyondUse: [...limits].flatMap(([name, own]) => own.map(({ row }) => (limits.size > 1 ? named(name, row) : row))),
    rates: rateTable(run, request.batch),
    labels: [],
    notes: noteLines(run, lookup),
    safety: safetyNotice,
  };
  sheet.labels = labels(library, asked, sheet, limits);
  return sheet;
}

/** Where one run finishes several kinds of container, each limit says whose it is. */
function named(name: string, row: BeyondUseRow): BeyondUseRow {
  return { ...row, place: { text: `${name}: ${row.place.text}`, from: row.place.from } };
}

function givenSaid(text: string | undefined, what: string): Said | undefined {
  return text === undefined ? undefined : { text, from: { kind: "asked", what } };
}

function ofMeaning(text: string, what: "fingerprint" | "approval"): Said {
  return { text, from: { kind: "meaning", what } };
}

/** An approval of another meaning, or of a later day, is said to be one: left out, its paper copy would still look like an approval of this. */
function approvalsOf(approvals: readonly SheetApproval[], day: string, recipe: Recipe, library: Library): Said[] {
  return approvals.map(({ role, date, fingerprint }) => {
    const version = versionWords(fingerprint);
    const under = version === "" ? "" : `, under ${version}`;
    const is = isFingerprintOf(fingerprint, recipe, library)
      ? "of this meaning"
      : algorithmOf(fingerprint)
        ? "of ANOTHER meaning than this sheet has; it does not hold"
        : "NOT known to be of this meaning";
    const later = date > day ? ", given AFTER the day of this sheet; it does not hold" : "";
    return ofMeaning(`${role}, ${date}, ${is}${under}${later}`, "approval");
  });
}

function zoneSaid(zone: string, request: SheetRequest, library: Library): Said {
  if (request.timeZone !== undefined) return { text: zone, from: { kind: "asked", what: "time-zone" } };
  const stated = library.surroundings().lookup.site()?.facts.one("time-zone");
  return stated ? written(zone, "site") : fixed(`${zone}, as the site states no time zone`, "time zone");
}

function madeSaid(run: Run, runs: number, count: number): Said {
  const [name = "", second] = run.finalNames;
  const what = finishedPieces(run.groups.get(name), count);
  // Of several that differ each is counted by the name that the steps give it.
  const made =
    second === undefined
      ? what.startsWith("piece")
        ? `${count} ${count === 1 ? name : `x ${name}`}`
        : `${count} ${what}`
      : allOf([...run.finalNames].map((each) => `${vesselsOf(run.groups.get(each)).length * runs} ${each}`));
  const text = runs > 1 ? `${made}, in ${runs} runs one after another` : made;
  return { text, from: { kind: "count", what: "made" } };
}

function findings(library: Library, recipe: Recipe, run: Run): { standing: Said[]; silenced: Sheet["silenced"] } {
  const all = standingFindings(library, recipe, run);
  const { lookup } = library.surroundings();
  const said = (text: string, name: string): Said => ({
    text: inPrintedNames(text, lookup, run.groups),
    from: { kind: "finding", name },
  });
  const own = (text: string) => written(text, `recipe ${recipe.name.name}`);
  return {
    standing: all.filter((f) => f.severity === "error" && !f.silenced).map((f) => said(f.message, f.name)),
    silenced: all.flatMap(({ name, message, silenced }) =>
      silenced
        ? [
            {
              message: said(message, name),
              because: own(silenced.because),
              by: own(silenced.by),
              until: own(silenced.until),
            },
          ]
        : [],
    ),
  };
}

/** Where the bench could not follow, nothing that is printed may pass for checked. */
function unknownReasons(run: Run): Said[] {
  const reasons: Said[] = [];
  if (run.unknown)
    reasons.push(fixed("Some figures could not be worked out; they are missing on this sheet.", "not for use"));
  const missing = run.doses.filter((d) => !d.given);
  for (const dose of missing)
    reasons.push(fixed(`The dose of ${drugIn(run, dose.drug)} could not be worked out.`, "not for use"));
  return reasons;
}

function labels(
  library: Library,
  { request, run, count, runs }: Asked,
  sheet: Sheet,
  limits: ReadonlyMap<string, readonly BeyondUse[]>,
): Sheet["labels"] {
  const { lookup, policy } = library.surroundings();
  const finals = Array.from({ length: runs }, () => run.finals).flat();
  return finals.map((vessel, i) =>
    labelOf({
      run,
      lookup,
      policy,
      preparation: run.recipe.preparations.find((p) => p.name.name === vessel.name),
      vessel,
      unit: i + 1,
      of: count,
      runs,
      variant: sheet.variant,
      number: sheet.number,
      gtin: request.gtin,
      prepared: sheet.prepared,
      limits: limits.get(vessel.name) ?? [],
      rates: sheet.rates,
      notForUse: sheet.notForUse.length > 0,
      safety: sheet.safety,
    }),
  );
}
