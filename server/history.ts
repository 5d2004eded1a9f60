/** The library in which an approved meaning stood, from version control, where that can be asked. */
import type { Approval } from "../language/compare/approvals.ts";
import { isFingerprintOf } from "../language/compare/fingerprint.ts";
import { Library } from "../language/library.ts";
import type { Recipe } from "../language/model/declaration.ts";
import { declaresSite } from "../language/syntax/declares-site.ts";
import { groupBySite } from "./grouping.ts";

/** Where a file stands in a working copy. */
export interface InWorkingCopy {
  /** Absolute folder, with forward slashes. */
  top: string;
  /** Name of the file below it. */
  name: string;
  /** Another one after a commit, a checkout or a fetch: the history may then know more. */
  state: string;
}

/** What version control remembers. Every answer is empty where it remembers nothing. */
export interface History {
  /** Undefined for a file under no version control. */
  place(key: string): Promise<InWorkingCopy | undefined>;
  /** Commits in which the approved meaning may stand: that of the approval, then those that brought its fingerprint into the record. */
  commits(record: InWorkingCopy, approval: Approval): Promise<string[]>;
  /** Texts of all recipe files of a commit, by their names below the top. */
  texts(top: string, commit: string): Promise<ReadonlyMap<string, string>>;
}

/** A team mostly approves many recipes at one commit. */
const mostKept = 3;

export class ApprovedLibraries {
  private readonly kept = new Map<string, Library>();

  constructor(private readonly history: History) {}

  /** @returns the library in which the recipe had the approved meaning; undefined where no history has it */
  async find(record: InWorkingCopy, recipe: string, approval: Approval, asOf: string): Promise<Library | undefined> {
    for (const commit of await this.history.commits(record, approval)) {
      for (const library of await this.beside(record, commit, asOf)) {
        const [found, second] = library.declared(recipe).filter((d): d is Recipe => d.kind === "recipe");
        if (found && !second && isFingerprintOf(approval.fingerprint, found, library)) return library;
      }
    }
    return undefined;
  }

  /** Forgets the libraries: nothing is stale any longer, or everything is asked again. */
  clear(): void {
    this.kept.clear();
  }

  /** The libraries at a commit that have a file in the record's folder. */
  private async beside({ top, name }: InWorkingCopy, commit: string, asOf: string): Promise<Library[]> {
    const folder = folderOf(`${top}/${name}`);
    const about = `${asOf} ${commit} ${folder}`;
    const known = this.kept.get(about);
    if (known) {
      this.keep(about, known);
      return [known];
    }
    const texts = new Map([...(await this.history.texts(top, commit))].map(([file, text]) => [`${top}/${file}`, text]));
    const sites = new Set([...texts].filter(([, text]) => declaresSite(text)).map(([key]) => key));
    const grouping = groupBySite(sites, folderOf);
    const groups = new Map<string, [key: string, text: string][]>();
    for (const [key, text] of texts) {
      const root = grouping.rootOf(key);
      const group = root === undefined ? `file ${key}` : `root ${root}`;
      groups.set(group, [...(groups.get(group) ?? []), [key, text]]);
    }
    const libraries: Library[] = [];
    for (const files of groups.values())
      if (files.some(([key]) => folderOf(key) === folder)) libraries.push(await opened(files, asOf));
    // Files that stand alone make many small libraries, which are not kept.
    if (libraries.length === 1) this.keep(about, libraries[0]!);
    return libraries;
  }

  private keep(about: string, library: Library): void {
    this.kept.delete(about);
    this.kept.set(about, library);
    for (const old of [...this.kept.keys()].slice(0, -mostKept)) this.kept.delete(old);
  }
}

/** Milliseconds of work between two looks at what else there is to do. */
const slice = 4;

async function opened(files: readonly [key: string, text: string][], asOf: string): Promise<Library> {
  const library = new Library({ asOf });
  let until = performance.now() + slice;
  for (const [key, text] of files) {
    library.open(key, text);
    // The glance at each declaration is half of what the names of a library cost.
    for (const chunk of library.chunks(key)) void chunk.lone;
    if (performance.now() < until) continue;
    await new Promise<void>((resolve) => void setTimeout(resolve, 0));
    until = performance.now() + slice;
  }
  return library;
}

function folderOf(key: string): string | undefined {
  const cut = key.lastIndexOf("/");
  return cut < 0 ? undefined : key.slice(0, cut);
}
