/** Asks each library for the findings of the files that the run is about. */

import type { ReportRange } from "../../shared/report.ts";
import type { AnswerMemory, NamedText } from "./answer-memory.ts";
import { type AskOptions, askLibrary } from "./ask-library.ts";
import type { FoundIn } from "./build-report.ts";
import { byCodeUnit } from "./folders.ts";
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
  ranges: ReportRange[];
}

export interface CollectOptions extends Pick<AskOptions, "asOf" | "program"> {
  /** The memory of a library; undefined where nothing is kept. */
  memoryOf(group: LibraryGroup & { root: string }, texts: readonly NamedText[]): Promise<AnswerMemory | undefined>;
  progress: Progress;
}

export async function collectFindings(
  groups: readonly LibraryGroup[],
  store: SourceStore,
  options: CollectOptions,
): Promise<Collected> {
  const collected: Collected = { found: [], files: [], notChecked: [], texts: new Map(), ranges: [] };
  const files = new Set<string>();
  const seen = new Set<string>();
  const total = groups.reduce((sum, group) => sum + group.asked.length, 0);
  let done = 0;
  for (const group of groups) {
    const texts = textsOf(group, store);
    for (const { file, text } of texts) collected.texts.set(file, new SourceText(text));
    for (const path of group.asked) files.add(store.nameOf(path));
    await collectGroup(group, texts, store, options, collected, seen, (n) => options.progress.tick(done + n, total));
    done += group.asked.length;
  }
  options.progress.end();
  collected.files = [...files].sort();
  collected.ranges.sort((a, b) => byCodeUnit(a.file, b.file));
  return collected;
}

function textsOf(group: LibraryGroup, store: SourceStore): NamedText[] {
  return group.opened.flatMap((path) => {
    const source = store.read(path);
    if (source.kind !== "text") return [];
    return [{ file: store.nameOf(path), text: source.text, isInventory: group.inventories.has(path) }];
  });
}

async function collectGroup(
  group: LibraryGroup,
  texts: readonly NamedText[],
  store: SourceStore,
  { asOf, program, memoryOf }: CollectOptions,
  collected: Collected,
  seen: Set<string>,
  tick: (done: number) => void,
): Promise<void> {
  const root = group.root === undefined ? "" : store.nameOf(group.root);
  const asked = group.asked.filter((path) => store.read(path).kind === "text").map((path) => store.nameOf(path));
  const memory = hasRoot(group) ? await memoryOf(group, texts) : undefined;
  const answers = await askLibrary(group, asked, texts, { asOf, program, memory, tick });
  memory?.save();
  for (const path of group.asked) {
    const file = store.nameOf(path);
    const source = store.read(path);
    const answer = answers.get(file);
    if (source.kind === "unreadable") {
      collected.notChecked.push({ file, reason: `The file could not be read: ${source.reason}.` });
    } else if (source.kind === "finding") {
      collected.found.push({ finding: source.finding, root });
    } else if (!answer || "fault" in answer) {
      const reason = answer ? answer.fault : "it was not answered";
      collected.notChecked.push({ file, reason: `The check broke off by a fault of this program (${reason}).` });
    } else {
      for (const range of answer.ranges) collected.ranges.push({ file, ...range });
      for (const finding of answer.findings) {
        // An inventory that lies outside every library is open in each; what it says of itself is said once.
        const identity = JSON.stringify([finding.span, finding.name, finding.message]);
        if (/\.csv$/i.test(path) && seen.has(identity)) continue;
        seen.add(identity);
        collected.found.push({ finding, root });
      }
    }
  }
}

function hasRoot(group: LibraryGroup): group is LibraryGroup & { root: string } {
  return group.root !== undefined;
}
