/** One file's answer from its library, in whichever thread. */
import type { Finding, JudgedRange } from "../../shared/finding.ts";
import { reasonOf } from "./cannot-run.ts";
import type { OpenLibrary, RestsOn } from "./engine-contract.ts";

export type Answer = { findings: Finding[]; ranges: JudgedRange[]; restsOn: RestsOn | undefined } | { fault: string };

/** Never throws: the engine promises not to either; should it, the file must not count as checked. */
export function answerFile(library: OpenLibrary, file: string): Answer {
  try {
    const findings = library.findings(file);
    const ranges = library.ranges?.(file) ?? [];
    const restsOn = library.restsOn?.(file);
    library.release(file);
    return { findings, ranges, restsOn };
  } catch (error) {
    return { fault: reasonOf(error) };
  }
}
