/** Where a command's answer goes when it goes to a file. */
import { resolve } from "node:path";
import { CannotRun, reasonNotWritten } from "./cannot-run.ts";
import { writeWhole } from "./write-whole.ts";

/** Written whole or not at all. `what`: the answer, as a sentence's subject ("The report"). @throws CannotRun where it cannot be */
export function writeReport(what: string, typed: string, content: string | Uint8Array, cwd: string): void {
  requireReportName(what, typed);
  try {
    writeWhole(resolve(cwd, typed), content);
  } catch (error) {
    throw new CannotRun(`${what} cannot be written to "${typed}": ${reasonNotWritten(error)}.`);
  }
}

/**
 * A slip of the flag must not cost anybody a recipe or the list of lots: what the program reads, it does not write over.
 * @throws CannotRun for such a name, and for an empty one (a variable of a build script that is not set)
 */
export function requireReportName(what: string, typed: string): void {
  if (typed === "") throw new CannotRun(`${what} has no file to go to: its name is empty. Name one.`);
  if (/\.(misce|csv)$/i.test(typed)) {
    throw new CannotRun(
      `${what} is not written to "${typed}", a file that recipes or lots are read from. Name another.`,
    );
  }
}
