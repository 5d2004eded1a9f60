/** `misce export`: a recipe at one order in an open format, and a list of what that format has no place for. */
import { resolve } from "node:path";
import { isSheetRefusal } from "../../language/sheet/sheet.ts";
import { safetyNotice } from "../../shared/report.ts";
import { requireDay, today } from "./as-of.ts";
import { CannotRun } from "./cannot-run.ts";
import type { Engine } from "./engine-contract.ts";
import { openRecipe, type RecipeFlags } from "./open-recipe.ts";
import { inputsOf, type OrderFlags } from "./order-flags.ts";
import { requireReportName, writeReport } from "./report-file.ts";
import { visible } from "./reports/visible.ts";
import { lotsOf } from "./sheet-settings.ts";
import type { Surroundings } from "./surroundings.ts";

export interface ExportFlags extends RecipeFlags, OrderFlags {
  format?: string;
  lot?: string[];
  asOf?: string;
  out?: string;
  summary?: string;
}

/** @returns exit status: 0 written, 1 not written since errors stand against the recipe. */
export async function exportCommand(
  what: string,
  flags: ExportFlags,
  engine: Engine,
  surroundings: Surroundings,
): Promise<0 | 1> {
  if (flags.format !== undefined && flags.format !== "fhir") {
    throw new CannotRun(`--format is "${flags.format}". It can be fhir.`);
  }
  refuseFiles(flags, surroundings.cwd);
  const exporter = await engine.exporter?.();
  if (!exporter) throw new CannotRun("This engine exports nothing.");
  const lots = lotsOf(flags.lot ?? []);
  const day = flags.asOf === undefined ? today(surroundings.now()) : requireDay(flags.asOf);
  const { library, name } = await openRecipe(what, flags, engine, exporter, surroundings, day);
  const exported = exporter.fhir(library, { recipe: name, inputs: inputsOf(flags), lots });
  if (isSheetRefusal(exported)) throw new CannotRun(exported.refusal);
  const tell = (text: string) => surroundings.stderr.write(`${visible(text)}\n`);
  if ("withheld" in exported) {
    tell(`misce: ${name} is not exported, since this stands against it:`);
    for (const reason of exported.withheld) tell(`  ${reason}`);
    return 1;
  }
  const { bundle, ...summary } = exported;
  const text = `${JSON.stringify(bundle, null, 2)}\n`;
  if (flags.out === undefined) surroundings.stdout.write(text);
  else writeReport("The export", flags.out, text, surroundings.cwd);
  if (flags.summary !== undefined) {
    const json = { schema: exporter.schema, format: "fhir-r4", ...summary, notice: safetyNotice };
    writeReport("The summary", flags.summary, `${JSON.stringify(json, null, 2)}\n`, surroundings.cwd);
  }
  const counts = Object.entries(summary.resources).map(([type, count]) => `${count} ${type}`);
  tell(`misce: ${name}, FHIR R4: ${counts.join(", ")}. It is no order: status draft, intent proposal, no patient.`);
  list("Rounded", summary.rounded, tell);
  list("As readable text only", summary.asText, tell);
  list("Left out", summary.missing, tell);
  tell(safetyNotice);
  return 0;
}

/** Before any work, so that nothing is half written. */
function refuseFiles({ out, summary }: ExportFlags, cwd: string): void {
  if (out !== undefined) requireReportName("The export", out);
  if (summary === undefined) return;
  requireReportName("The summary", summary);
  if (out !== undefined && resolve(cwd, out) === resolve(cwd, summary))
    throw new CannotRun(`--out and --summary both name "${out}". Give the summary a file of its own.`);
}

function list(head: string, rows: readonly string[], tell: (text: string) => void): void {
  if (rows.length === 0) return;
  tell(`${head}:`);
  for (const row of rows) tell(`  ${row}`);
}
