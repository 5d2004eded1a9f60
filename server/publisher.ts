/**
 * Sends findings: those of the edited file at once, with its version; those of other files that the edit may reach afterwards, in
 * short slices between messages, and only where they differ from what was sent.
 */
import type { Diagnostic } from "vscode-languageserver-protocol";
import type { Severity } from "../shared/finding.ts";
import { diagnosticsOf } from "./findings-of.ts";
import type { Serving } from "./serving.ts";
import type { Reach } from "./session.ts";
import { tellStatusSoon } from "./status.ts";

const severityNames: Readonly<Record<number, Severity | undefined>> = { 1: "error", 2: "warning", 3: "note" };

/** Milliseconds of work between two looks at the message queue. */
const slice = 4;
/** Milliseconds after a keystroke in which other files wait. */
const rest = 30;
/** A file that took longer than so many milliseconds is looked at only once a burst of keystrokes has been taken in. */
const slow = 60;
const burst = 20;
/** A burst that does not end is looked at in between, so that nothing stale stays. */
const longestBurst = 1000;
/** Milliseconds without a keystroke after which counts in other open files are asked for again. */
const lensRest = 400;

export class Publisher {
  private readonly sent = new Map<string, string>();
  /** Standing findings by file, silenced ones not counted. */
  readonly counts = new Map<string, Record<Severity, number>>();
  private waiting: string[] = [];
  private running = false;
  private idle: (() => void)[] = [];
  private callOff: () => void = () => undefined;
  private callOffFindings: () => void = () => undefined;
  /** Files that took long since they were edited last. */
  private readonly slowFiles = new Set<string>();
  /** Edits of slow files that are still to be looked at: how to call off the look, and how far they reach together. */
  private readonly pending = new Map<string, { callOff: () => void; reach: Reach; since: number }>();
  serving!: Serving;
  /** When somebody last typed, on the clock of `performance.now`. */
  lastEdit = Number.NEGATIVE_INFINITY;
  /** Until the workspace is read, nothing is sent: half a library would give false findings. */
  held = true;

  /** After an edit of one file. */
  edited(key: string, reach: Reach): void {
    this.lastEdit = performance.now();
    if (this.held) return;
    const before = this.pending.get(key);
    if (!before && !this.slowFiles.has(key)) {
      this.look(key, reach);
      return;
    }
    before?.callOff();
    const together = before?.reach === "others" ? before.reach : reach;
    const since = before?.since ?? this.lastEdit;
    const look = () => {
      this.pending.delete(key);
      if (this.serving.stage !== "shut") this.look(key, together);
      this.rested();
    };
    const callOff = this.serving.host.after(this.lastEdit - since < longestBurst ? burst : 0, look);
    this.pending.set(key, { callOff, reach: together, since });
  }

  private look(key: string, reach: Reach): void {
    this.slowFiles.delete(key);
    // The lines above recipes speak of findings; with other findings they are asked for again.
    if (this.publish(key, true)) this.refreshLenses();
    else this.refreshLensesSoon();
    tellStatusSoon(this.serving);
    this.serving.host.slim?.();
    if (reach !== "nothing") this.serving.approvals.later(key);
    if (reach !== "others") return;
    this.queueAll();
  }

  /** Looks at every shown file again, open ones first. */
  queueAll(): void {
    if (this.held) return;
    tellStatusSoon(this.serving);
    const { session } = this.serving;
    const open: string[] = [];
    const rest: string[] = [];
    for (const key of new Set([...session.keys(), ...session.inventoryKeys(), ...this.sent.keys()])) {
      (session.isOpen(key) ? open : rest).push(key);
    }
    this.waiting = [...open, ...rest].reverse();
    this.run();
    this.refreshPulled();
  }

  /** Forgets what was sent, for a change of how findings are shown. */
  forget(): void {
    for (const [key, text] of this.sent) this.sent.set(key, text === "[]" ? text : "");
  }

  /** A file of which something else is known without an edit. */
  again(key: string): void {
    if (this.held || this.serving.stage === "shut") return;
    if (this.publish(key, false)) this.refreshFindingsSoon();
    this.rest(key);
  }

  /** Resolves when nothing waits to be looked at. */
  async settled(): Promise<void> {
    const { approvals } = this.serving;
    while (this.running || this.pending.size > 0 || approvals.isBusy) {
      if (this.running || this.pending.size > 0) await new Promise<void>((resolve) => this.idle.push(resolve));
      else await approvals.settled();
    }
  }

  private rest(key: string): void {
    const { session } = this.serving;
    if (!session.isOpen(key)) session.group(key)?.library.rest(key);
  }

  /** @returns whether the findings are others than before */
  private publish(key: string, always: boolean): boolean {
    const { session, client, connection } = this.serving;
    const isShown = session.isAsked(key);
    const begun = performance.now();
    const items: Diagnostic[] = isShown ? diagnosticsOf(this.serving, key) : [];
    if (performance.now() - begun > slow) this.slowFiles.add(key);
    this.count(key, items);
    const group = session.isOpen(key) ? session.group(key) : undefined;
    if (group) this.serving.lastGood.note(group.library, key);
    else this.serving.lastGood.forget(key);
    const text = JSON.stringify(items);
    const before = this.sent.get(key) ?? "[]";
    const isOther = text !== before;
    // An open file is told of once even where nothing was found: while it is not, clean and not yet checked look the same.
    const isTold = this.sent.has(key) && !always;
    if (!isOther && (isTold || !session.isOpen(key))) return false;
    if (items.length === 0 && !session.isOpen(key)) this.sent.delete(key);
    else this.sent.set(key, text);
    if (client.findings === "pull") return isOther;
    const document = session.document(key);
    const uri = document?.uri ?? session.host.uriOf(key);
    const version = document?.version ?? undefined;
    void connection.sendDiagnostics(
      version === undefined ? { uri, diagnostics: items } : { uri, version, diagnostics: items },
    );
    return isOther;
  }

  private count(key: string, items: readonly Diagnostic[]): void {
    const before = this.counts.get(key);
    const now: Record<Severity, number> = { error: 0, warning: 0, note: 0 };
    for (const item of items) {
      const severity = item.severity && severityNames[item.severity];
      if (severity) now[severity]++;
    }
    this.counts.set(key, now);
    if (before?.error !== now.error || before.warning !== now.warning || before.note !== now.note)
      tellStatusSoon(this.serving);
  }

  private run(): void {
    if (this.running) return;
    this.running = true;
    let postponed = performance.now();
    const work = () => {
      if (this.serving.stage === "shut") this.waiting = [];
      const now = performance.now();
      // Whoever types goes first; a second at most, so that nothing stale stays while somebody types on and on. What stands open is
      // looked at, and is not made to wait.
      const isClosed = !this.serving.session.isOpen(this.waiting.at(-1) ?? "");
      if (isClosed && now - this.lastEdit < rest && now - postponed < 1000) {
        this.serving.host.after(rest, work);
        return;
      }
      postponed = now;
      const until = performance.now() + slice;
      while (this.waiting.length > 0 && performance.now() < until) {
        const key = this.waiting.pop()!;
        const { session, approvals } = this.serving;
        // Somebody may be typing in what stands open.
        if (session.isOpen(key)) approvals.later(key);
        else approvals.refresh(key);
        this.publish(key, false);
        this.rest(key);
      }
      this.serving.host.slim?.();
      if (this.waiting.length > 0) {
        this.serving.host.after(0, work);
        return;
      }
      this.running = false;
      this.rested();
      tellStatusSoon(this.serving);
    };
    this.serving.host.after(0, work);
  }

  private rested(): void {
    if (!this.running && this.pending.size === 0) for (const tell of this.idle.splice(0)) tell();
  }

  private refreshPulled(): void {
    const { client, connection } = this.serving;
    // An editor that cannot refresh after all says so by an error, which changes nothing.
    const ignore = () => undefined;
    this.refreshDiagnostics();
    if (client.refreshesHints) connection.languages.inlayHint.refresh().catch(ignore);
    if (client.refreshesTokens) connection.languages.semanticTokens.refresh().catch?.(ignore);
    this.refreshLenses();
  }

  /** How many recipes use a stock stands above it in another file, whether findings have changed or not. */
  private refreshLensesSoon(): void {
    if (!this.serving.client.refreshesLenses || [...this.serving.session.openDocuments()].length < 2) return;
    this.callOff();
    this.callOff = this.serving.host.after(lensRest, () => this.refreshLenses());
  }

  /** Once for many files that come one after another. */
  private refreshFindingsSoon(): void {
    this.callOffFindings();
    this.callOffFindings = this.serving.host.after(burst, () => {
      if (this.serving.stage === "shut") return;
      this.refreshDiagnostics();
      this.refreshLenses();
    });
  }

  private refreshDiagnostics(): void {
    const { client, connection } = this.serving;
    if (client.findings === "pull" && client.refreshesDiagnostics)
      connection.sendRequest("workspace/diagnostic/refresh").catch(() => undefined);
  }

  private refreshLenses(): void {
    const { client, connection } = this.serving;
    if (client.refreshesLenses && !this.held)
      connection.sendRequest("workspace/codeLens/refresh").catch(() => undefined);
  }
}
