/**
 * What there is to say of approvals, as the command line says it: the record beside a recipe against what the recipe means now.
 *
 * Whoever types does not wait for it. After a keystroke the last answer stays in its place and is looked at again once typing rests;
 * what the history of the files says comes from other processes and is told when it is there.
 */
import {
  type Approval,
  approvalFileOf,
  approvalFindings,
  type RecordText,
  readApprovals,
  rolesAskedFor,
  standingApprovals,
} from "../language/compare/approvals.ts";
import { isFingerprintOf } from "../language/compare/fingerprint.ts";
import { changesOfRecipe } from "../language/compare/recipe-changes.ts";
import type { Library, PlacedChunk } from "../language/library.ts";
import { dateText } from "../language/model/dates.ts";
import type { Recipe } from "../language/model/declaration.ts";
import type { Finding } from "../shared/finding.ts";
import { ApprovalRecords } from "./approval-records.ts";
import { ApprovedLibraries, type InWorkingCopy } from "./history.ts";
import { headIn, moved, numberOf, recipeIn, recipesOf } from "./recipe-chunks.ts";
import type { Serving } from "./serving.ts";

/** Milliseconds without a keystroke after which approvals are looked at. */
const pause = 150;
/** Typing that does not end is interrupted so often, so that nothing stale stays. */
const longestTyping = 3000;

interface Answer {
  /** All that it was worked out from: the same again need not be worked out. */
  from: { chunk: PlacedChunk; record: RecordText | undefined; shared: string };
  /** Where the chunk stood. */
  base: number;
  findings: Finding[];
  /** Approvals that no longer hold. */
  stale: Approval[];
  /** What changed since each of them, as far as it was asked; undefined where no history has it. */
  told: { state: string | undefined; changes: Map<Approval, string[] | undefined> } | undefined;
}

export class Approvals {
  readonly records = new ApprovalRecords();
  /** By file, then by recipe; files of which there is nothing to say are not in it. */
  private readonly answers = new Map<string, Map<string, Answer>>();
  private readonly waiting = new Set<string>();
  private waitingSince = 0;
  private isPlanned = false;
  private asking: Promise<void> = Promise.resolve();
  private toAsk = new Map<string, { key: string; recipe: string }>();
  private asked = 0;
  private idle: (() => void)[] = [];
  private libraries: ApprovedLibraries | undefined;
  private readonly sharedOf = new WeakMap<Library, { key: number; day: string; text: string }>();
  serving!: Serving;

  /** Findings of a file at their places now. */
  findings(key: string): Finding[] {
    const own = this.answers.get(key);
    const library = own && this.serving.session.group(key)?.library;
    if (!own || !library) return [];
    const chunks = library.chunks(key);
    return [...own].flatMap(([recipe, { from, base, findings }]) => {
      if (findings.length === 0) return [];
      if (chunks.includes(from.chunk)) return findings.map((f) => moved(f, from.chunk.base - base));
      // Typed in since: the head of the recipe stands somewhere else, or nowhere.
      const span = headIn(chunks, recipe, library);
      return span ? findings.map((f) => ({ ...f, span })) : [];
    });
  }

  /** Whether there may be anything to say of a file: most libraries have no records and ask for none. */
  concerns(key: string): boolean {
    if (this.answers.has(key)) return true;
    const { session, host } = this.serving;
    const library = session.group(key)?.library;
    if (!library) return false;
    const folder = host.folderOf(key);
    return (folder !== undefined && this.records.hasAnyIn(folder)) || rolesAskedFor(library).length > 0;
  }

  /** Looks at a file again when typing rests. */
  later(key: string): void {
    if (!this.concerns(key)) return;
    if (this.waiting.size === 0) this.waitingSince = performance.now();
    this.waiting.add(key);
    this.plan(pause);
  }

  /** Resolves when nothing waits to be looked at, and no history to be asked. */
  get isBusy(): boolean {
    return this.waiting.size > 0 || this.asked > 0;
  }

  settled(): Promise<void> {
    return this.isBusy ? new Promise((resolve) => this.idle.push(resolve)) : Promise.resolve();
  }

  /** For who asks and waits: what the history says included. */
  async complete(key: string): Promise<void> {
    this.refresh(key);
    while (this.asked > 0) await this.asking;
  }

  /** Works out what there is to say of a file now. What waits goes on waiting: it is still to be sent. */
  refresh(key: string): void {
    if (!this.concerns(key)) return;
    const { session, host } = this.serving;
    const library = session.group(key)?.library;
    const folder = host.folderOf(key);
    const before = this.answers.get(key);
    const now = new Map<string, Answer>();
    const isKnown = library !== undefined && session.document(key) !== undefined && !session.unreadable(key);
    for (const [recipe, chunk] of isKnown ? recipesOf(library.chunks(key)) : []) {
      // Told by the checks of structure: which of the two would be approved?
      if (library!.countOf("recipe", recipe) !== 1) continue;
      const record = folder === undefined ? undefined : this.records.of(folder, recipe);
      const from = { chunk, record, shared: this.shared(library!) };
      now.set(recipe, this.answer(key, recipe, from, before?.get(recipe), library!));
    }
    if (now.size === 0) this.answers.delete(key);
    else this.answers.set(key, now);
  }

  private answer(
    key: string,
    name: string,
    from: Answer["from"],
    before: Answer | undefined,
    library: Library,
  ): Answer {
    const isSame =
      before?.from.chunk === from.chunk && before.from.record === from.record && before.from.shared === from.shared;
    if (isSame && before) {
      // A new commit may know more than the last.
      if ([...(before.told?.changes.values() ?? [])].includes(undefined)) this.ask(key, name);
      return before;
    }
    const read = from.record === undefined ? undefined : readApprovals(from.record);
    const isMissing = from.record === undefined;
    const recipe = isMissing && rolesAskedFor(library).length === 0 ? undefined : recipeIn(from.chunk, name);
    const answer: Answer = { from, base: from.chunk.base, findings: [], stale: [], told: undefined };
    if (!recipe) return answer;
    if (read && !("fault" in read))
      answer.stale = standingApprovals(read, dateText(library.surroundings().asOf)).filter(
        (a) => !isFingerprintOf(a.fingerprint, recipe, library),
      );
    // Until the history has answered, what it said of the last text stands.
    answer.findings = this.findingsFor(answer, key, recipe, library);
    if (answer.stale.length > 0 && this.history) {
      if (before && before.stale.length > 0) answer.findings = before.findings;
      this.ask(key, name);
    }
    return answer;
  }

  private findingsFor(answer: Answer, key: string, recipe: Recipe, library: Library): Finding[] {
    const read = answer.from.record === undefined ? undefined : readApprovals(answer.from.record);
    const fault = read && "fault" in read ? read.fault : undefined;
    const record = read && !("fault" in read) ? read : undefined;
    const changes = new Map([...(answer.told?.changes ?? [])].map(([a, lines]) => [a.fingerprint, lines]));
    const changesSince = (approval: Approval) => changes.get(approval.fingerprint);
    const found = approvalFindings({ recipe, file: key, record, fault, changesSince }, library);
    const why = this.history ? "" : this.whyNoHistory;
    return found.map((f) => (f.name === "approval-stale" && why !== "" ? { ...f, message: `${f.message} ${why}` } : f));
  }

  private get history() {
    return this.serving.client.readsHistory ? this.serving.host.history : undefined;
  }

  private get whyNoHistory(): string {
    return this.serving.host.history
      ? "The history of the files is read only in a folder that you trust, so declarations are named and not each fact."
      : "The history of the files is not at hand in a browser, so declarations are named and not each fact; `misce check` on a machine tells them.";
  }

  /**
   * Everything that an approval may rest on beside the recipe and its record, as the chunks that say it. Recipes are left out: no
   * recipe rests on another.
   */
  private shared(library: Library): string {
    const { day } = this.serving.session;
    const known = this.sharedOf.get(library);
    if (known && known.key === library.namesKey && known.day === day) return known.text;
    const heads = sharedKinds.flatMap((kind) => library.headsOf(kind).map(({ chunk }) => numberOf(chunk)));
    const text = `${day} ${heads.join(" ")}`;
    this.sharedOf.set(library, { key: library.namesKey, day, text });
    return text;
  }

  private ask(key: string, recipe: string): void {
    const name = `${key} ${recipe}`;
    if (this.toAsk.has(name)) return;
    this.toAsk.set(name, { key, recipe });
    this.asked++;
    this.asking = this.asking
      .then(() => {
        this.toAsk.delete(name);
        return this.askHistory(key, recipe);
      })
      .catch((error) => this.serving.connection.console.warn(`misce: the history could not be asked: ${error}`))
      .then(() => {
        this.asked--;
        this.rested();
      });
  }

  private async askHistory(key: string, name: string): Promise<void> {
    const { history } = this;
    const answer = this.answers.get(key)?.get(name);
    const folder = this.serving.host.folderOf(key);
    if (this.serving.stage !== "open" || !answer || !history || folder === undefined) return;
    this.libraries ??= new ApprovedLibraries(history);
    const place = await history.place(`${folder}/${approvalFileOf(name)}`);
    if (answer.told && answer.told.state === place?.state) return;
    const { day } = this.serving.session;
    const changes = new Map<Approval, string[] | undefined>();
    for (const approval of answer.stale) {
      const before = place && (await this.libraryOf(place, name, approval, day));
      await this.untilRest();
      const library = this.serving.session.group(key)?.library;
      // Typed in while git was asked: the answer for the new text is asked for by itself.
      if (!library || this.answers.get(key)?.get(name) !== answer || !library.chunks(key).includes(answer.from.chunk))
        return;
      if (answer.from.shared !== this.shared(library)) return this.later(key);
      changes.set(approval, before && changesOfRecipe(before, library, name));
    }
    const library = this.serving.session.group(key)?.library;
    const recipe = recipeIn(answer.from.chunk, name);
    if (!library || !recipe) return;
    answer.told = { state: place?.state, changes };
    answer.base = answer.from.chunk.base;
    answer.findings = this.findingsFor(answer, key, recipe, library);
    this.serving.publisher.again(key);
  }

  /** Laying two libraries side by side takes longer than a keystroke may wait. */
  private async untilRest(): Promise<void> {
    const { host, publisher } = this.serving;
    const began = performance.now();
    for (;;) {
      const now = performance.now();
      const left = Math.min(publisher.lastEdit + pause - now, began + longestTyping - now);
      if (left <= 0 || this.serving.stage !== "open") return;
      await new Promise<void>((resolve) => void host.after(left, resolve));
    }
  }

  /** What version control cannot tell, for whatever reason, is told without it. */
  private async libraryOf(place: InWorkingCopy, recipe: string, approval: Approval, day: string) {
    try {
      return await this.libraries?.find(place, recipe, approval, day);
    } catch (error) {
      this.serving.connection.console.warn(`misce: the history of ${place.name} could not be read: ${error}`);
      return undefined;
    }
  }

  private plan(milliseconds: number): void {
    if (this.isPlanned) return;
    this.isPlanned = true;
    this.serving.host.after(milliseconds, () => {
      this.isPlanned = false;
      this.look();
    });
  }

  private look(): void {
    if (this.serving.stage !== "open") this.waiting.clear();
    const now = performance.now();
    const quiet = now - this.serving.publisher.lastEdit;
    if (this.waiting.size > 0 && quiet < pause && now - this.waitingSince < longestTyping) {
      this.plan(pause - quiet);
      return;
    }
    const [key] = this.waiting;
    if (key !== undefined) {
      this.waiting.delete(key);
      this.refresh(key);
      this.serving.publisher.again(key);
    }
    if (this.waiting.size > 0) this.plan(0);
    else this.rested();
  }

  private rested(): void {
    if (!this.isBusy) for (const tell of this.idle.splice(0)) tell();
  }
}

const sharedKinds = ["site", "drug", "fluid", "stock", "device", "bands", "reference", "lots"] as const;
