/**
 * Two editors on one folder, one that is sent findings and one that asks for them, and everything that can happen to the folder under
 * them, drawn from a seed: texts typed, undone, saved and closed unsaved, files renamed, deleted and swapped by another program, records
 * of approvals given, spoilt and lost, the day turned, and questions in between, some of them taken back.
 */
import {
  cpSync,
  existsSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  realpathSync,
  renameSync,
  rmSync,
  writeFileSync,
} from "node:fs";
import { tmpdir } from "node:os";
import { dirname, join } from "node:path";
import {
  CancellationTokenSource,
  FileChangeType,
  type WorkspaceDiagnosticReport,
} from "vscode-languageserver-protocol";
import { approvalFileOf, approvalOf, withApproval } from "../../language/compare/approvals.ts";
import { Library } from "../../language/library.ts";
import type { Recipe } from "../../language/model/declaration.ts";
import { type Editor, editor, fullAbilities, uriOf } from "./client.ts";
import { freshCheck, lineOf, shownNow, sorted } from "./fresh.ts";
import { asChange, edited, type Random } from "./random-edits.ts";

const days = ["2026-11-25", "2026-12-01", "2031-01-01"];
const shelves = ["magnesium-vial-10,X1,2027-12-31", "magnesium-vial-10,X1,2020-01-31", "no-such-stock,X1,2027-12-31"];
const busy = /(site|lots|fluids|vials|references|magnesium-4g)\.misce$/;
const pulling = { ...fullAbilities, textDocument: { ...fullAbilities.textDocument, diagnostic: {} } };

interface Open {
  text: string;
  version: number;
  before: string[];
}

export class HostileSession {
  readonly folder = realpathSync(mkdtempSync(join(tmpdir(), "misce-hostile-")));
  /** The last few things done, for the message of a failure. */
  readonly recent: string[] = [];
  /** Answers that no editor may be given, whatever it does. */
  readonly faults: string[] = [];
  private readonly good = new Map<string, string>();
  private readonly open = new Map<string, Open>();
  private readonly asked: Promise<unknown>[] = [];
  private readonly csv = join(this.folder, "shelf.csv");
  private day = days[0]!;
  private version = 0;
  private editors: Editor[] = [];

  private constructor(private readonly random: Random) {}

  static async begun(random: Random): Promise<HostileSession> {
    const made = new HostileSession(random);
    const part = (from: string) => !/recipes\/./.test(from) || /magnesium-(4g|loading)|vancomycin-loading/.test(from);
    cpSync("samples/library", made.folder, { recursive: true, filter: part });
    for (const path of made.files()) made.good.set(path, readFileSync(path, "utf8"));
    const site = made.good.get(join(made.folder, "site.misce"))!;
    made.good.set(join(made.folder, "site.misce"), site.replace("  note ", "  approvals       pharmacist\n  note "));
    for (const [path, text] of made.good) writeFileSync(path, text);
    writeFileSync(made.csv, `stock,lot,expires\n${shelves[0]}\n`);
    const options = { asOf: made.day, inventory: ["shelf.csv"] };
    const folders = [made.folder];
    made.editors = [
      await editor({ folders, options }),
      await editor({ folders, options: { ...options, findings: "pull" }, abilities: pulling }),
    ];
    return made;
  }

  async end(): Promise<void> {
    for (const each of this.editors) await each.quit();
    rmSync(this.folder, { recursive: true, force: true });
  }

  async step(): Promise<void> {
    const kind = this.random();
    const path = this.anyFile();
    if (kind < 0.42) await this.type(path);
    else if (kind < 0.5) await this.undo();
    else if (kind < 0.57) await this.close();
    else if (kind < 0.63) await this.save();
    else if (kind < 0.7) await this.swap(path);
    else if (kind < 0.74) await this.rename(path);
    else if (kind < 0.78) await this.remove(path);
    else if (kind < 0.82) await this.checkOut();
    else if (kind < 0.9) await this.record();
    else if (kind < 0.92) await this.count();
    else if (kind < 0.94) await this.turnDay();
    else await this.ask(path);
    if (this.random() < 0.4) await this.ask(this.anyFile());
  }

  /** @returns what each editor has and what a fresh check says, as one text a side */
  async compare(): Promise<{ sent: unknown; asked: unknown; fresh: unknown }> {
    await Promise.all(this.asked.splice(0));
    const [push, pull] = this.editors as [Editor, Editor];
    // A request is answered after the notifications before it; files are read in between.
    for (let round = 0; round < 3; round++) {
      for (const each of this.editors) {
        await each.ask("workspace/symbol", { query: "no such name" });
        await each.serving!.publisher.settled();
      }
    }
    const unsaved = new Map([...this.open].map(([path, { text }]) => [path, text]));
    const fresh = await freshCheck(this.folder, this.day, unsaved, [this.csv]);
    const { items } = await pull.ask<WorkspaceDiagnosticReport>("workspace/diagnostic", { previousResultIds: [] });
    const asked = items.flatMap((i): [string, string[]][] => {
      const lines = i.kind === "full" ? i.items.map(lineOf).sort() : [];
      return lines.length > 0 ? [[i.uri, lines]] : [];
    });
    return { sent: sorted(shownNow(push)), asked: sorted(new Map(asked)), fresh: sorted(fresh) };
  }

  private any<T>(of: readonly T[]): T {
    return of[Math.floor(this.random() * of.length)]!;
  }

  private files(): string[] {
    const names = (readdirSync(this.folder, { recursive: true }) as string[]).filter((name) => name.endsWith(".misce"));
    return names.sort().map((name) => join(this.folder, name));
  }

  /** Files on which many others rest are touched as often as all the rest. */
  private anyFile(): string {
    const all = [...this.good.keys()];
    return this.any(this.random() < 0.5 ? all : all.filter((path) => busy.test(path)));
  }

  private note(what: string): void {
    this.recent.push(what.replaceAll(`${this.folder}/`, ""));
    if (this.recent.length > 10) this.recent.shift();
  }

  private async tell(method: string, params: unknown): Promise<void> {
    for (const each of this.editors) await each.tell(method, params);
  }

  /** Kinds are told as editors tell them: mostly right. */
  private async tellDisk(...paths: string[]): Promise<void> {
    const kinds = [FileChangeType.Created, FileChangeType.Changed, FileChangeType.Deleted];
    const usual = (path: string) => (existsSync(path) ? FileChangeType.Changed : FileChangeType.Deleted);
    const changes = paths.map((path) => ({
      uri: uriOf(path),
      type: this.random() < 0.1 ? this.any(kinds) : usual(path),
    }));
    await this.tell("workspace/didChangeWatchedFiles", { changes });
  }

  private write(path: string, text: string | undefined): void {
    if (text === undefined) rmSync(path, { recursive: true, force: true });
    else writeFileSync(path, text);
  }

  /** Many edits put a text right again, so that the library does not drown in faults. */
  private other(path: string, was: string): string {
    if (this.random() < 0.5) return this.good.get(path) ?? was;
    return asOnDisk(edited(was, this.random, [...this.good.values()]));
  }

  private async change(path: string, open: Open, now: string): Promise<void> {
    const whole = this.random() < 0.2;
    const contentChanges = [whole ? { text: now } : asChange(open.text, now, "utf-16")];
    open.text = now;
    open.version = ++this.version;
    await this.tell("textDocument/didChange", {
      textDocument: { uri: uriOf(path), version: open.version },
      contentChanges,
    });
  }

  private async type(path: string): Promise<void> {
    let open = this.open.get(path);
    if (!open) {
      const text = existsSync(path) ? readFileSync(path, "utf8") : "";
      open = { text, version: ++this.version, before: [] };
      this.open.set(path, open);
      for (const each of this.editors) await each.open(path, text, open.version);
    }
    // A burst: several versions before anybody looks.
    for (let stroke = 0; stroke < 1 + Math.floor(this.random() * 3); stroke++) {
      open.before.push(open.text);
      await this.change(path, open, this.other(path, open.text));
    }
    this.note(`typed in ${path}`);
  }

  private async undo(): Promise<void> {
    const [path, open] = this.any([...this.open]) ?? [];
    const text = open?.before.pop();
    if (path === undefined || !open || text === undefined) return;
    await this.change(path, open, text);
    this.note(`undid in ${path}`);
  }

  private async close(): Promise<void> {
    const [path] = this.any([...this.open]) ?? [];
    if (path === undefined) return;
    this.open.delete(path);
    await this.tell("textDocument/didClose", { textDocument: { uri: uriOf(path) } });
    this.note(`closed ${path} without saving`);
  }

  private async save(): Promise<void> {
    const [path, open] = this.any([...this.open]) ?? [];
    if (path === undefined || !open) return;
    writeFileSync(path, open.text);
    await this.tell("textDocument/didSave", { textDocument: { uri: uriOf(path) } });
    if (this.random() < 0.7) await this.tellDisk(path);
    this.note(`saved ${path}`);
  }

  /** Another program writes the file, open or not. */
  private async swap(path: string): Promise<void> {
    this.write(path, this.other(path, existsSync(path) ? readFileSync(path, "utf8") : ""));
    await this.tellDisk(path);
    this.note(`changed on disk ${path}`);
  }

  private async rename(path: string): Promise<void> {
    const moved = path.replace(".misce", "-moved.misce");
    const [from, to] = existsSync(moved) ? [moved, path] : [path, moved];
    if (!existsSync(from)) return;
    renameSync(from, to);
    if (this.random() < 0.5) await this.tellDisk(from, to);
    else await this.tell("workspace/didRenameFiles", { files: [{ oldUri: uriOf(from), newUri: uriOf(to) }] });
    this.note(`renamed ${from} to ${to}`);
  }

  private async remove(path: string): Promise<void> {
    // A library that has lost most of its files says little.
    this.write(path, existsSync(path) && this.random() < 0.5 ? undefined : this.good.get(path)!);
    await this.tellDisk(path);
    this.note(`${existsSync(path) ? "put back" : "deleted"} ${path}`);
  }

  /** Another branch: many files at once. */
  private async checkOut(): Promise<void> {
    const isHome = this.random() < 0.6;
    const paths = [...this.good.keys()].filter(() => isHome || this.random() < 0.2);
    for (const path of paths) this.write(path, isHome ? this.good.get(path)! : this.other(path, ""));
    await this.tellDisk(...paths);
    this.note(isHome ? "the first branch again" : `another branch: ${paths.join(", ")}`);
  }

  /** A recipe approved as it stands on the disk; or its record spoilt, or lost. */
  private async record(): Promise<void> {
    const library = new Library({ asOf: this.day });
    for (const path of this.files()) library.open(path, readFileSync(path, "utf8"));
    const recipe = this.any(library.ofKind("recipe")) as Recipe | undefined;
    const file = recipe && library.spanOf({ ...recipe.head, chunk: recipe.chunk })?.file;
    if (!recipe || file === undefined) return;
    const path = join(dirname(file), approvalFileOf(recipe.name.name));
    const kind = this.random();
    if (kind < 0.7) {
      const given = { role: this.any(["pharmacist", "aseptic-lead"]), date: "2026-11-20", revision: null };
      const record = withApproval(undefined, recipe.name.name, approvalOf(recipe, library, given));
      this.write(path, JSON.stringify(record));
    } else this.write(path, kind < 0.85 ? "<<<<<<< ours" : undefined);
    await this.tellDisk(path);
    this.note(`record of ${recipe.name.name}: ${kind < 0.7 ? "approved" : kind < 0.85 ? "spoilt" : "lost"}`);
  }

  private async count(): Promise<void> {
    writeFileSync(this.csv, `stock,lot,expires\n${this.any(shelves)}\n`);
    await this.tellDisk(this.csv);
    this.note("the shelf was counted");
  }

  private async turnDay(): Promise<void> {
    this.day = this.any(days);
    await this.tell("workspace/didChangeConfiguration", {
      settings: { misce: { asOf: this.day, inventory: ["shelf.csv"] } },
    });
    this.note(`day ${this.day}`);
  }

  /** Not waited for, so that edits come between question and answer; now and then taken back. */
  private async ask(path: string): Promise<void> {
    const [method, params] = this.question(path);
    const source = new CancellationTokenSource();
    const of = this.any(this.editors);
    const answer = of.connection.sendRequest(method, params as never, source.token).catch((error: Error) => {
      if (/fault of this program/.test(error.message)) this.faults.push(`${method}: ${error.message}`);
    });
    this.asked.push(answer);
    if (this.random() < 0.2) source.cancel();
    this.note(`asked ${method} of ${path}`);
  }

  private question(path: string): [method: string, params: object] {
    const textDocument = { uri: uriOf(path) };
    const lines = (this.open.get(path)?.text ?? this.good.get(path)!).split("\n");
    const line = Math.floor(this.random() * (lines.length + 2));
    const position = { line, character: Math.floor(this.random() * 40) };
    const range = { start: position, end: { line: line + 3, character: 0 } };
    const here = { textDocument, position };
    const options = { tabSize: 2, insertSpaces: true };
    return this.any<[string, object]>([
      ["textDocument/hover", here],
      ["textDocument/completion", here],
      ["textDocument/signatureHelp", here],
      ["textDocument/definition", here],
      ["textDocument/references", { ...here, context: { includeDeclaration: true } }],
      ["textDocument/prepareRename", here],
      ["textDocument/rename", { ...here, newName: "another-name" }],
      ["textDocument/codeAction", { textDocument, range, context: { diagnostics: [] } }],
      ["textDocument/codeLens", { textDocument }],
      ["textDocument/documentSymbol", { textDocument }],
      ["textDocument/semanticTokens/full", { textDocument }],
      ["textDocument/inlayHint", { textDocument, range }],
      ["textDocument/formatting", { textDocument, options }],
      ["textDocument/foldingRange", { textDocument }],
      ["textDocument/diagnostic", { textDocument }],
      ["workspace/diagnostic", { previousResultIds: [] }],
      ["workspace/symbol", { query: "magnesium" }],
      ["misce/preview", { uri: textDocument.uri, position }],
    ]);
  }
}

/** No file holds half of a letter, and the fresh check reads files: what is typed and never saved goes by a file as well. */
function asOnDisk(text: string): string {
  return Buffer.from(text).toString();
}
