/** Where records of approvals lie: beside the recipe's file, under the recipe's name. */
import { readdirSync } from "node:fs";

/** What follows the recipe's name in the name of its record. */
export const recordEnding = ".approvals.json";

/** Names of the records that lie in a folder. */
export function recordsIn(folder: string): Set<string> {
  try {
    return new Set(readdirSync(folder).filter((name) => name.endsWith(recordEnding)));
  } catch {
    // A folder that cannot be listed is told by the check of its files.
    return new Set();
  }
}
