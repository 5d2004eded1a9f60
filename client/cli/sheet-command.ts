/**
 * `misce sheet`: opens the library that the recipe belongs to, asks for the sheet of one order, and writes HTML or PDF. PDF and bar
 * code are bundles of their own, loaded only when needed, so that `misce check` starts as fast as before.
 */
import { existsSync } from "node:fs";
import { dirname, join, resolve } from "node:path";
import { isSheetRefusal, type Sheet, type SheetApproval, type SheetRequest } from "../../language/sheet/sheet.ts";
import { readRecord } from "./approval-records.ts";
import { requireDay, today } from "./as-of.ts";
import { CannotRun, reasonNotWritten } from "./cannot-run.ts";
import type { Engine, OpenLibrary, SheetMaker } from "./engine-contract.ts";
import { openRecipe } from "./open-recipe.ts";
import { visible } from "./reports/visible.ts";
import { type SheetFlags, type SheetSettings, sheetSettings } from "./sheet-settings.ts";
import type { Surroundings } from "./surroundings.ts";
import { writeWhole } from "./write-whole.ts";

/** @returns exit status: 0 written, 1 written and marked not for use. */
export async function sheetCommand(
  what: string,
  flags: SheetFlags,
  engine: Engine,
  surroundings: Surroundings,
): Promise<0 | 1> {
  const settings = sheetSettings(flags);
  const maker = await engine.sheets?.();
  if (!maker) throw new CannotRun("This engine makes no sheets.");
  const day = flags.at === undefined ? today(surroundings.now()) : requireDay(flags.at.slice(0, 10), "--at");
  const { library, name } = await openRecipe(what, flags, engine, maker, surroundings, day);
  const record = await recordOf(library, name, day, flags, engine, maker, surroundings);
  const request: SheetRequest = {
    recipe: name,
    inputs: settings.inputs,
    bags: flags.bags,
    at: flags.at ?? nowText(maker, surroundings.now(), flags.timeZone ?? maker.timeZone(library)),
    timeZone: flags.timeZone,
    lots: settings.lots,
    batch: flags.batch ?? false,
    number: flags.number,
    gtin: flags.gtin,
    fingerprint: undefined,
    revision: flags.revision ?? record.revision,
    approvals: record.approvals,
  };
  const sheet = maker.sheet(library, request);
  if (isSheetRefusal(sheet)) throw new CannotRun(sheet.refusal);
  await deliver(sheet, flags, settings, maker, surroundings);
  if (sheet.notForUse.length === 0) return 0;
  surroundings.stderr.write("misce: the sheet is marked NOT FOR USE:\n");
  for (const reason of sheet.notForUse) surroundings.stderr.write(`  ${visible(reason.text)}\n`);
  return 1;
}

interface RecordOfSheet {
  approvals: SheetApproval[];
  revision: string | undefined;
}

/**
 * Approvals from the record beside the recipe, and the revision of the one that holds.
 * @throws CannotRun for a fingerprint on the command line that is not the recipe's: the sheet would vouch for another meaning
 */
async function recordOf(
  library: OpenLibrary,
  name: string,
  day: string,
  { fingerprint }: SheetFlags,
  engine: Engine,
  finder: SheetMaker,
  { cwd }: Surroundings,
): Promise<RecordOfSheet> {
  const meanings = await engine.meanings?.();
  const holds = (given: string) => meanings?.isFingerprint(library, name, given) ?? false;
  if (fingerprint !== undefined && !holds(fingerprint)) {
    const taken = meanings?.fingerprint(library, name);
    const own = taken && "fingerprint" in taken ? taken.fingerprint : undefined;
    throw new CannotRun(
      `--fingerprint is "${fingerprint}", but the recipe's meaning now has ${own ?? "none"}. Approve the recipe again, or leave the flag out.`,
    );
  }
  const [place] = finder.recipesNamed(library, name);
  const path = meanings && place && join(dirname(resolve(cwd, place.file)), meanings.approvalFile(name));
  if (!meanings || !path || !existsSync(path)) return { approvals: [], revision: undefined };
  const record = meanings.readApprovals(readRecord(path));
  if ("fault" in record) throw new CannotRun(`${record.fault} Without it no sheet is printed.`);
  const standing = meanings.standingApprovals(record, day);
  const holding = standing.filter((a) => holds(a.fingerprint)).at(-1);
  const approvals = [...standing, ...meanings.laterApprovals(record, day)];
  return { approvals, revision: holding?.revision?.slice(0, 12) };
}

/** What the site's wall clock shows. */
function nowText(maker: SheetMaker, now: Date, zone: string): string {
  const shown = maker.wallClock(now, zone);
  if (shown !== undefined) return shown;
  throw new CannotRun(`The time zone "${zone}" is not known. Write a name such as Europe/London.`);
}

async function deliver(
  sheet: Sheet,
  flags: SheetFlags,
  settings: SheetSettings,
  maker: SheetMaker,
  surroundings: Surroundings,
): Promise<void> {
  if (settings.form === "json") {
    write(flags.out!, maker.json(sheet), surroundings);
    return;
  }
  const labelsOnly = flags.label ?? false;
  const drawCode = sheet.labels.some((l) => l.barcode)
    ? (await besideMain(() => import("./sheet-code.ts"))).codeSvg
    : () => "";
  if (settings.form === "html") {
    const html = maker.html(sheet, labelsOnly, drawCode);
    if (flags.out === undefined) surroundings.stdout.write(html);
    else write(flags.out, html, surroundings);
    return;
  }
  const { sheetPdf } = await besideMain(() => import("./sheet-pdf.ts"));
  write(flags.out!, await sheetPdf(sheet, { paper: settings.paper, labelsOnly, drawCode }), surroundings);
}

/** The parts that lie beside the program's own file. */
async function besideMain<T>(load: () => Promise<T>): Promise<T> {
  try {
    return await load();
  } catch (error) {
    const code = (error as NodeJS.ErrnoException).code;
    if (code !== "ERR_MODULE_NOT_FOUND" && code !== "MODULE_NOT_FOUND") throw error;
    throw new CannotRun(
      "sheet-code.js and sheet-pdf.js must lie in the folder of the program. Copy them there, or build again.",
    );
  }
}

function write(out: string, content: string | Uint8Array, { cwd }: Surroundings): void {
  const path = resolve(cwd, out);
  try {
    writeWhole(path, content);
  } catch (error) {
    throw new CannotRun(`The sheet cannot be written to "${out}": ${reasonNotWritten(error)}.`);
  }
}
