/**
 * The records of approvals as the disk has them: which lie beside the recipes, and what they say. They are no recipe files: no editor
 * opens them here, so what the disk holds is what counts, as on the command line.
 */
import { approvalFileOf, type RecordText } from "../language/compare/approvals.ts";
import type { Serving } from "./serving.ts";

export function isRecord(key: string): boolean {
  return key.endsWith(approvalFileOf(""));
}

export class ApprovalRecords {
  /** By folder, then by the name of the file. */
  private readonly inFolder = new Map<string, Map<string, RecordText>>();

  of(folder: string, recipe: string): RecordText | undefined {
    return this.inFolder.get(folder)?.get(approvalFileOf(recipe));
  }

  hasAnyIn(folder: string): boolean {
    return (this.inFolder.get(folder)?.size ?? 0) > 0;
  }

  folders(): string[] {
    return [...this.inFolder.keys()];
  }

  /** Lists and reads the records of every folder that holds a recipe file. */
  async readAll(serving: Serving): Promise<void> {
    this.inFolder.clear();
    await this.readNew(serving);
  }

  /** The same for folders that were not looked into yet. */
  async readNew(serving: Serving): Promise<void> {
    const folders = new Set(serving.session.keys().flatMap((key) => serving.host.folderOf(key) ?? []));
    await Promise.all(
      [...folders].filter((f) => !this.inFolder.has(f)).map((folder) => this.readFolder(serving, folder)),
    );
  }

  /** Takes a record that was written, changed or deleted. */
  async readOne(serving: Serving, key: string): Promise<void> {
    const folder = serving.host.folderOf(key);
    // A folder in which no recipe is known is looked into once one is.
    if (folder !== undefined && this.inFolder.has(folder)) await this.readFolder(serving, folder);
  }

  private async readFolder({ host }: Serving, folder: string): Promise<void> {
    const keys = await host.recordsIn(folder);
    const texts = await Promise.all(keys.map((key) => host.read(key)));
    const read = new Map<string, RecordText>();
    for (const [i, key] of keys.entries()) {
      const source = texts[i];
      // Gone between listing and reading, or a folder of that name: it approves nothing, and says so.
      read.set(key.slice(key.lastIndexOf("/") + 1), source?.kind === "text" ? source.text : { unread: true });
    }
    this.inFolder.set(folder, read);
  }
}
