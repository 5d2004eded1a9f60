/** One text as a library of its own. */
import { Library } from "../../language/library.ts";
import type { Finding } from "../../shared/finding.ts";

export function findingsOf(text: string, asOf = "2026-11-25"): Finding[] {
  const library = new Library({ asOf });
  library.open("example.misce", text);
  return library.findings("example.misce");
}
