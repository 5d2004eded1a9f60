/** Asks each library for the findings of the files that the run is about. */
import type { FoundIn } from "./build-report.ts";
import { reasonOf } from "./cannot-run.ts";
import type { LibraryGroup } from "./library-groups.ts";
import type { Progress } from "./progress.ts";
import type { SourceStore } from "./source-store.ts";
import { SourceText } from "./source-text.ts";

export interface Collected {
  found: FoundIn[];
  /** Names of the files asked about, sorted. */
  files: string[];
  notChecked: { file: string; reason: string }[];
  texts: Map<string, SourceText>;
}

export function collectFindings(groups: readonly LibraryGroup[], store: SourceStore, progress: Progress): Collected {
  const files = new Set<string>();
  const collected: Collected = { found: [], files: [], notChecked: [], texts: new Map() };
  const seen = new Set<string>();
  const total = groups.reduce((sum, group) => sum + group.asked.length, 0);
  let done = 0;
  for (const group of groups) {
    for (const path of group.opened) addText(path, store, collected.texts);
    const root = group.root === undefined ? "" : store.nameOf(group.root);
    for (const path of group.asked) {
      files.add(store.nameOf(path));
      collectFile(path, root, group, store, collected, seen);
      progress.tick(++done, total);
    }
  }
  progress.end();
  collected.files = [...files].sort();
  return collected;
}

function addText(path: string, store: SourceStore, texts: Map<string, SourceText>): void {
  const source = store.read(path);
  if (source.kind === "text") texts.set(store.nameOf(path), new SourceText(source.text));
}

function collectFile(
  path: string,
  root: string,
  group: LibraryGroup,
  store: SourceStore,
  collected: Collected,
  seen: Set<string>,
): void {
  const file = store.nameOf(path);
  const source = store.read(path);
  if (source.kind === "unreadable") {
    collected.notChecked.push({ file, reason: `The file could not be read: ${source.reason}.` });
    return;
  }
  if (source.kind === "finding") {
    collected.found.push({ finding: source.finding, root });
    return;
  }
  try {
    for (const finding of group.library.findings(file)) {
      // An inventory that lies outside every library is open in each; what it says of itself is said once.
      const identity = JSON.stringify([finding.span, finding.name, finding.message]);
      if (/\.csv$/i.test(path) && seen.has(identity)) continue;
      seen.add(identity);
      collected.found.push({ finding, root });
    }
    group.library.release(file);
  } catch (error) {
    // The engine promises not to throw; should it, the file must not count as checked.
    collected.notChecked.push({ file, reason: `The check broke off by a fault of this program (${reasonOf(error)}).` });
  }
}
