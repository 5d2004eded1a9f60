/**
 * Answers of earlier runs, kept in one file for each library. A file's findings are given again only when everything they rest on
 * is the same, text for text: the program, the as-of date, the file's own text and name, every text of the library that declares
 * anything but recipes (inventories included), and, for names the file looked for, that no other file has a recipe of that name.
 * Time stamps count for nothing. Whatever cannot be read, or was written by another version, is left aside as if it were not there.
 */
import { createHash, hash } from "node:crypto";
import { existsSync, mkdirSync, readFileSync } from "node:fs";
import { dirname, join } from "node:path";
import type { Finding, JudgedRange } from "../../shared/finding.ts";
import type { RestsOn } from "./engine-contract.ts";
import { writeWhole } from "./write-whole.ts";

/** What is known of one file. */
interface KnownFile {
  /** SHA-256 of the text. */
  hash: string;
  /** Names of its recipes where it declares nothing else; null for a file that the whole library rests on. */
  recipes: string[] | null;
  /** Null where there is none to keep. */
  answer: (KeptAnswer & { names: string[] }) | null;
}

/** What is said of a file. */
export interface KeptAnswer {
  findings: Finding[];
  ranges: JudgedRange[];
}

interface Kept {
  asOf: string;
  /** What all answers rest on together. */
  shared: string;
  files: Record<string, KnownFile>;
}

export interface MemoryOptions {
  /** One text for the errors that are not shown; empty for none. Runs with and without them keep their answers apart. */
  known: string;
  folder: string;
  /** Tells one version of the program from every other. */
  program: string;
  asOf: string;
  cwd: string;
}

/** A text of the library, by the name under which findings speak of it. */
export interface NamedText {
  file: string;
  text: string;
  isInventory: boolean;
}

const format = "misce-answers 2";

/** SHA-256 in base64. In one call where Node has it (20.12 and later): a library has thousands of small texts. */
export function hashOf(text: string | Buffer): string {
  return typeof hash === "function"
    ? hash("sha256", text, "base64")
    : createHash("sha256").update(text).digest("base64");
}

/** The memory of one library. */
export class AnswerMemory {
  private readonly path: string;
  private readonly files = new Map<string, KnownFile>();
  private readonly holders = new Map<string, number>();
  private readonly shared: string;
  private isChanged = false;

  /** `texts`: the whole library. `recipesOnly` is asked for texts that were not met before. */
  constructor(
    private readonly options: MemoryOptions,
    root: string,
    texts: readonly NamedText[],
    recipesOnly: (text: string) => string[] | undefined,
  ) {
    const place = createHash("sha256")
      .update(JSON.stringify(options.known === "" ? [options.cwd, root] : [options.cwd, root, "known"]))
      .digest("hex");
    this.path = join(options.folder, `${place.slice(0, 32)}.json`);
    const before = readKept(this.path, options.program);
    const shared = createHash("sha256").update(options.known);
    for (const { file, text, isInventory } of [...texts].sort((a, b) => (a.file < b.file ? -1 : 1))) {
      const hash = hashOf(text);
      const known = before && Object.hasOwn(before.files, file) ? before.files[file] : undefined;
      const same = known?.hash === hash ? known : undefined;
      if (!same) this.isChanged = true;
      const recipes = same ? same.recipes : isInventory ? null : (recipesOnly(text) ?? null);
      this.files.set(file, { hash, recipes, answer: same?.answer ?? null });
      if (recipes === null) shared.update(JSON.stringify([file, hash, isInventory]));
      for (const name of recipes ?? []) this.holders.set(name, (this.holders.get(name) ?? 0) + 1);
    }
    this.shared = shared.digest("base64");
    const isCurrent = before?.asOf === options.asOf && before.shared === this.shared;
    if (!isCurrent) {
      this.isChanged = true;
      for (const known of this.files.values()) known.answer = null;
    }
  }

  /** The answer for a file where it is known; undefined where it has to be checked. */
  known(file: string): KeptAnswer | undefined {
    const known = this.files.get(file);
    return known?.answer && this.isAlone(known, known.answer.names) ? known.answer : undefined;
  }

  keep(file: string, { findings, ranges }: KeptAnswer, { names, otherRecipes }: RestsOn): void {
    const known = this.files.get(file);
    if (!known) return;
    known.answer = otherRecipes || !this.isAlone(known, names) ? null : { names, findings, ranges };
    this.isChanged = true;
  }

  /** No recipe of another file bears one of these names. */
  private isAlone({ recipes }: KnownFile, names: readonly string[]): boolean {
    return names.every(
      (name) => (this.holders.get(name) ?? 0) === (recipes?.filter((own) => own === name).length ?? 0),
    );
  }

  /** Writes what changed. A memory that cannot be written costs time in the next run and nothing else. */
  save(): void {
    if (!this.isChanged) return;
    const kept: Kept = { asOf: this.options.asOf, shared: this.shared, files: Object.fromEntries(this.files) };
    const body = JSON.stringify(kept);
    try {
      makeFolder(this.options.folder);
      writeWhole(this.path, `${format} ${this.options.program} ${hashOf(body)}\n${body}`);
    } catch {
      // Nothing is remembered.
    }
  }
}

/** Not with `recursive`: under a folder that refuses new ones by saying that they do not exist (/proc), Node 20 then tries for ever. */
function makeFolder(folder: string): void {
  if (existsSync(folder)) return;
  const above = dirname(folder);
  if (above !== folder) makeFolder(above);
  try {
    mkdirSync(folder);
  } catch (error) {
    // Another run may have made it meanwhile.
    if ((error as NodeJS.ErrnoException).code !== "EEXIST") throw error;
  }
}

/** Undefined where there is none, or none that this program wrote whole. */
function readKept(path: string, program: string): Kept | undefined {
  let text: string;
  try {
    text = readFileSync(path, "utf8");
  } catch {
    return undefined;
  }
  const end = text.indexOf("\n");
  const body = text.slice(end + 1);
  if (end < 0 || text.slice(0, end) !== `${format} ${program} ${hashOf(body)}`) return undefined;
  return JSON.parse(body) as Kept; // its checksum says that this program wrote it so
}
