/** Errors that stand against a recipe, told with an answer that rests on it: as on a sheet, it is given and marked, exit status 1. */
import type { Against } from "../../language/sheet/standing-findings.ts";
import { visible } from "./reports/visible.ts";
import type { Outlet } from "./surroundings.ts";

/** Lines of a text report; none where nothing stands against `what`. */
export function againstLines(what: string, against: readonly Against[]): string[] {
  if (against.length === 0) return [];
  const head = `NOT TO BE RELIED ON, since ${against.length === 1 ? "this error stands" : "these errors stand"} against ${what}:`;
  return [head, ...against.map(({ name, message }) => `  ${name}: ${message}`)];
}

/** For whoever reads one field of the JSON and not the rest. */
export function tellAgainst(what: string, against: readonly Against[], stderr: Outlet): void {
  const [head, ...rows] = againstLines(what, against);
  if (head === undefined) return;
  stderr.write(`misce: ${visible(head)}\n`);
  for (const row of rows) stderr.write(`${visible(row)}\n`);
}
