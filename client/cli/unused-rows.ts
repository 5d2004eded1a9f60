/**
 * Rows of an inventory that no answer rests on. `misce check` has them among its findings; a sheet or a plan has no place for them and
 * would look as if all lots had been read.
 */
import { CannotRun } from "./cannot-run.ts";
import type { LibraryGroup } from "./library-groups.ts";
import { visible } from "./reports/visible.ts";
import type { SourceStore } from "./source-store.ts";
import type { Outlet } from "./surroundings.ts";

const mostRows = 5;

/** @throws CannotRun where a fault of the first row keeps the whole of an inventory out */
export async function tellUnusedRows(
  groups: readonly LibraryGroup[],
  store: SourceStore,
  stderr: Outlet,
): Promise<void> {
  const holders = new Map(groups.flatMap((group) => [...group.inventories].map((path) => [path, group] as const)));
  for (const [path, group] of holders) {
    const name = store.nameOf(path);
    const source = store.read(path);
    const text = source.kind === "text" ? source.text : "";
    const errors = (await group.library()).findings(name).filter((finding) => finding.severity === "error");
    const whole = errors.find((finding) => text.slice(0, finding.span.start).trim() === "");
    if (whole) throw new CannotRun(`${whole.message} Without its lots nothing is answered.`);
    for (const { message } of errors.slice(0, mostRows)) {
      stderr.write(`misce: ${visible(name)}, a row that is not used: ${visible(message)}\n`);
    }
    const more = errors.length - mostRows;
    if (more > 0) stderr.write(`misce: ${visible(name)}: ${more} more rows are not used; misce check lists them.\n`);
  }
}
