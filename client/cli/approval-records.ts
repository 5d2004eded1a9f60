/** Records of approvals on disk, and what git remembers of the meaning that was approved. Only what is needed is looked up. */
import { basename, dirname, join, relative } from "node:path";
import { declaresSite } from "../../language/syntax/declares-site.ts";
import type { Finding } from "../../shared/finding.ts";
import { recordsIn } from "./approval-files.ts";
import { CannotRun } from "./cannot-run.ts";
import type { Collected } from "./collect-findings.ts";
import { byRoot } from "./compare-sides.ts";
import { decode } from "./decode.ts";
import type { Engine, MeaningMaker, OpenLibrary } from "./engine-contract.ts";
import { commitOf, commitsBringing, gitTop, treeAt } from "./git-trees.ts";
import type { LibraryGroup } from "./library-groups.ts";
import { readRecordText } from "./read-file.ts";
import type { SourceStore } from "./source-store.ts";

type Approval = Parameters<Parameters<MeaningMaker["approvalFindings"]>[4]>[0];
type RecordText = Parameters<MeaningMaker["readApprovals"]>[0];

/** Adds what there is to say of approvals to the findings of a check. Libraries without records, whose site asks for none, cost one look. */
export async function addApprovalFindings(
  groups: readonly LibraryGroup[],
  store: SourceStore,
  collected: Collected,
  engine: Engine,
  asOf: string,
): Promise<void> {
  for (const group of groups) {
    const folders = new Map<string, Set<string>>();
    for (const path of group.asked)
      if (!folders.has(dirname(path))) folders.set(dirname(path), recordsIn(dirname(path)));
    const hasRecords = [...folders.values()].some((records) => records.size > 0);
    if (!hasRecords && !mayAsk(group, store)) continue;
    // Loaded only here: most runs have no records, and one recipe is to be checked at once.
    const maker = await engine.meanings?.();
    if (!maker) return;
    const library = await group.library();
    const root = group.root === undefined ? "" : store.nameOf(group.root);
    const asked = new Map(group.asked.map((path) => [store.nameOf(path), path]));
    for (const { name, file } of maker.recipes(library)) {
      const path = asked.get(file);
      if (path === undefined) continue;
      const record = maker.approvalFile(name);
      const text = folders.get(dirname(path))?.has(record) ? recordText(join(dirname(path), record)) : undefined;
      const approved = (approval: Approval) =>
        libraryApproved(approval, name, join(dirname(path), record), maker, engine, asOf);
      const before = new Map<string, OpenLibrary | undefined>();
      for (const approval of stale(maker, library, name, text, asOf))
        before.set(approval.fingerprint, await approved(approval));
      const findings: Finding[] = maker.approvalFindings(library, name, file, text, (a) => before.get(a.fingerprint));
      for (const finding of findings) collected.found.push({ finding, root });
    }
  }
}

function mayAsk(group: LibraryGroup, store: SourceStore): boolean {
  return group.opened.some((path) => {
    const source = store.read(path);
    return source.kind === "text" && declaresSite(source.text) && /\bapprovals\b/.test(source.text);
  });
}

/** A record that cannot be read approves nothing, and keeps nothing else from being checked. */
function recordText(path: string): RecordText {
  const read = readRecordText(path);
  return "text" in read ? read.text : { unread: true };
}

export function readRecord(path: string): string {
  const read = readRecordText(path);
  if ("text" in read) return read.text;
  throw new CannotRun(`"${basename(path)}" cannot be read: ${read.reason}. Take it back from version control.`);
}

function stale(
  maker: MeaningMaker,
  library: OpenLibrary,
  name: string,
  text: RecordText | undefined,
  asOf: string,
): Approval[] {
  const record = text === undefined ? undefined : maker.readApprovals(text);
  if (!record || "fault" in record) return [];
  return maker.standingApprovals(record, asOf).filter((a) => !maker.isFingerprint(library, name, a.fingerprint));
}

/**
 * The library in which the approved meaning stands: at the commit of the approval, or at the one that brought the record. Undefined
 * where no history has it; then only the names of what changed are told.
 */
async function libraryApproved(
  approval: Approval,
  recipe: string,
  record: string,
  maker: MeaningMaker,
  engine: Engine,
  asOf: string,
): Promise<OpenLibrary | undefined> {
  let top: string;
  try {
    top = gitTop(dirname(record));
  } catch (error) {
    if (error instanceof CannotRun) return undefined; // no version control, no history
    throw error;
  }
  const name = relative(top, record).replaceAll("\\", "/");
  const own = approval.revision === null ? [] : [commitOf(top, approval.revision)];
  const candidates = [...own, ...commitsBringing(top, approval.fingerprint, name)];
  for (const commit of candidates) {
    if (commit === undefined) continue;
    const texts = new Map<string, string>();
    for (const [file, bytes] of treeAt(top, commit, commit).files) {
      const decoded = decode(bytes, file);
      if ("text" in decoded) texts.set(file, decoded.text);
    }
    for (const group of byRoot(texts).values()) {
      if (![...group.keys()].some((file) => dirname(file) === dirname(name))) continue;
      const library = await engine.library({ asOf });
      for (const [file, text] of group) library.open(file, text);
      if (maker.isFingerprint(library, recipe, approval.fingerprint)) return library;
    }
  }
  return undefined;
}
