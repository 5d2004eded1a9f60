/**
 * Two states of a library, compared by what they mean. Pure: both libraries are opened by whoever asks, with the same as-of date.
 *
 * Invariants: a declaration whose text and all that it rests on are the same is never told; equal quantities in other units, other
 * layout, other comments and another order of facts are no change; what could not be read is told and never taken for unchanged.
 */
import {
  type ChangeLevel,
  type Comparison,
  changeLevels,
  comparisonSchema,
  type DeclarationChange,
  type Side,
} from "../../shared/comparison.ts";
import type { Finding } from "../../shared/finding.ts";
import { safetyNotice } from "../../shared/report.ts";
import type { Library } from "../library.ts";
import { dateText } from "../model/dates.ts";
import type { Recipe } from "../model/declaration.ts";
import { chunkHead } from "../syntax/chunks.ts";
import { type NameOf, sameName } from "./canonical.ts";
import { consequences } from "./consequences.ts";
import { allStated, type ItemOf, type StatedChanges, statedChanges } from "./fact-changes.ts";
import { bareText, type Head, type HeadPair, headsOf, matchDeclarations } from "./match-declarations.ts";
import { meaningOf, readingOf, type StepMeaning } from "./meaning.ts";
import { grouped, type StepPairs } from "./pair-statements.ts";
import { Reach } from "./reach.ts";
import { rangeOf, safeRangeVerdict, verdicts } from "./verdicts.ts";
import { nameOf as nameOfDeclaration, restsOn } from "./whole-meaning.ts";

export interface CompareRequest {
  before: Library;
  after: Library;
  /** As the command names the two sides. */
  names: { before: string; after: string };
  version: string;
  notOpened: Comparison["notOpened"];
}

export function compareLibraries(request: CompareRequest): Comparison {
  const work = new Work(request.before, request.after);
  const declarations = work.changes().sort(byLevel);
  const { counts, level } = summary(declarations);
  const notRead = work.notRead();
  const isWhole = request.notOpened.length === 0;
  return {
    schema: comparisonSchema,
    tool: { name: "misce", version: request.version },
    asOf: dateText(request.after.surroundings().asOf),
    before: request.names.before,
    after: request.names.after,
    level,
    exitStatus: !isWhole ? 2 : level === "none" ? 0 : 1,
    counts,
    declarations,
    notRead,
    notOpened: request.notOpened,
    notice: safetyNotice,
  };
}

function summary(declarations: readonly DeclarationChange[]): Pick<Comparison, "counts" | "level"> {
  const sum = (of: (d: DeclarationChange) => number) => declarations.reduce((n, d) => n + of(d), 0);
  const rank = Math.max(0, ...declarations.map((d) => changeLevels.indexOf(d.level)));
  const alarms = (d: DeclarationChange) =>
    [...d.consequences, ...d.facts.flatMap((f) => f.figures)].filter((f) => f.alarm !== "").length;
  return {
    level: changeLevels[rank]!,
    counts: {
      declarations: declarations.filter((d) => d.level !== "none").length,
      facts: sum((d) => d.facts.length),
      consequences: sum((d) => d.consequences.length),
      verdicts: sum((d) => d.verdicts.length),
      alarms: sum(alarms),
    },
  };
}

function byLevel(a: DeclarationChange, b: DeclarationChange): number {
  const recipes = Number(b.kind === "recipe") - Number(a.kind === "recipe");
  const levels = changeLevels.indexOf(b.level) - changeLevels.indexOf(a.level);
  return recipes || levels || (a.kind < b.kind ? -1 : a.kind > b.kind ? 1 : 0) || (a.name < b.name ? -1 : 1);
}

class Work {
  private readonly heads: { before: Head[]; after: Head[] };
  private readonly matched: ReturnType<typeof matchDeclarations>;
  private readonly renamed: NameOf;
  /** Declarations whose own meaning differs, by the name they have on each side. */
  private readonly touched = { before: new Set<string>(), after: new Set<string>() };

  constructor(
    private readonly before: Library,
    private readonly after: Library,
  ) {
    this.heads = { before: headsOf(before), after: headsOf(after) };
    this.matched = matchDeclarations(this.heads.before, this.heads.after);
    this.renamed = (name) => this.matched.renamed.get(name) ?? name;
  }

  changes(): DeclarationChange[] {
    const stated = new Map<HeadPair, StatedChanges>();
    for (const pair of this.matched.pairs) {
      const changes = this.stated(pair);
      if (!changes) continue;
      stated.set(pair, changes);
      if (changes.facts.length > 0) this.touch(pair.before, pair.after);
    }
    for (const head of this.matched.removed) this.touched.before.add(head.key);
    for (const head of this.matched.added) this.touched.after.add(head.key);
    this.touchLots();
    const reach = new Reach(this.before, this.after, this.touched);
    const changes = this.matched.pairs.flatMap((pair) => this.pairChange(pair, stated.get(pair), reach));
    changes.push(...this.matched.removed.map((head) => this.lone(head, "removed")));
    changes.push(...this.matched.added.map((head) => this.lone(head, "added")));
    changes.push(...this.elsewhere(new Set(changes.map((c) => `${c.kind} ${c.name}`))));
    return changes;
  }

  private touch(before: Head, after: Head): void {
    this.touched.before.add(before.key);
    this.touched.after.add(after.key);
  }

  /** Lots are no part of a meaning, but what the checks say may change with them: told for whoever uses the stock. */
  private touchLots(): void {
    const text = (heads: readonly Head[]) =>
      grouped(
        heads.filter((h) => h.kind === "lots"),
        (h) => h.name,
      );
    const [was, is] = [text(this.heads.before), text(this.heads.after)];
    for (const name of new Set([...was.keys(), ...is.keys()])) {
      const joined = (lots: typeof was) => (lots.get(name) ?? []).map((h) => h.text).join("\n");
      if (joined(was) === joined(is)) continue;
      this.touched.before.add(`lots ${name}`);
      this.touched.after.add(`lots ${name}`);
    }
  }

  /** Undefined where the text was not touched and no name in it was changed. */
  private stated({ before, after }: HeadPair): StatedChanges | undefined {
    if (before.text === after.text && this.matched.renamed.size === 0) return undefined;
    const declarations = { before: before.declaration, after: after.declaration };
    const names = this.namesFor(declarations.before, declarations.after);
    const itemOf: ItemOf = (side, name) => {
      const [item, second] = this[side].declared(name).filter((d) => d.kind === "stock" || d.kind === "device");
      return second ? undefined : item;
    };
    return statedChanges(meaningOf(declarations.before, names), meaningOf(declarations.after), declarations, itemOf);
  }

  /** A material under another name with the same item is the same material; so its steps are the same steps. */
  private namesFor(before: HeadPair["before"]["declaration"], after: HeadPair["before"]["declaration"]): NameOf {
    if (before.kind !== "recipe" || after.kind !== "recipe")
      return this.matched.renamed.size > 0 ? this.renamed : sameName;
    const local = renamedMaterials(before, after, this.renamed);
    if (local.size === 0 && this.matched.renamed.size === 0) return sameName;
    return (name) => local.get(name) ?? this.renamed(name);
  }

  private pairChange(pair: HeadPair, stated: StatedChanges | undefined, reach: Reach): DeclarationChange[] {
    const { before, after } = pair;
    const isRenamed = before.name !== after.name;
    const hasMoved = before.file !== after.file;
    const facts = [...(stated?.facts ?? []), ...(stated ? this.materialNames(pair) : [])];
    const isReached = after.kind === "recipe" && reach.mayReach(before, after);
    if (facts.length === 0 && !isRenamed && !hasMoved && !isReached && before.text === after.text) return [];
    const change = this.bare(
      after,
      isRenamed ? (facts.length > 0 ? "renamed and changed" : "renamed") : facts.length > 0 ? "changed" : "same",
    );
    change.facts = facts;
    if (isRenamed) change.formerName = before.name;
    if (hasMoved) change.formerFile = before.file;
    if (after.kind === "recipe" && (facts.length > 0 || isReached)) this.addBench(change, pair, stated);
    change.verdicts.unshift(...verdicts(this.findings("before", before), this.findings("after", after)));
    return this.levelled(change, hasMoved || isRenamed);
  }

  private levelled(change: DeclarationChange, isWorthTelling: boolean): DeclarationChange[] {
    const { verdicts: told, consequences: followed, facts } = change;
    // A recipe is changed by what it rests on, even where no figure moves; the shelf is no part of what it means.
    const isReached = change.reachedThrough.some((r) => !r.declaration.startsWith("lots "));
    const isStated = facts.length > 0 || isReached || change.how.startsWith("renamed");
    change.level = told.length > 0 ? "verdict" : followed.length > 0 ? "consequence" : isStated ? "fact" : "none";
    return change.level === "none" && !isWorthTelling && change.notCompared.length === 0 ? [] : [change];
  }

  private materialNames({ before, after }: HeadPair): DeclarationChange["facts"] {
    const [was, is] = [before.declaration, after.declaration];
    if (was.kind !== "recipe" || is.kind !== "recipe") return [];
    return [...renamedMaterials(was, is, this.renamed)].map(([from, to]) => ({
      block: "materials",
      how: "changed",
      before: `material ${from}`,
      after: `material ${to}, the same item under another name`,
      figures: [],
    }));
  }

  private addBench(change: DeclarationChange, { before, after }: HeadPair, stated: StatedChanges | undefined): void {
    const [was, is] = [before.declaration, after.declaration];
    if (was.kind !== "recipe" || is.kind !== "recipe") return;
    change.reachedThrough = this.reachedThrough(was, is);
    if (change.facts.length === 0 && change.reachedThrough.length === 0) return;
    const sides = {
      before: { recipe: was, library: this.before, range: rangeOf(was, this.before) },
      after: { recipe: is, library: this.after, range: rangeOf(is, this.after) },
    };
    const names = this.namesFor(was, is);
    const { steps } = stated ?? { steps: unchanged(meaningOf(is).steps) };
    const followed = consequences(sides.before, sides.after, steps, names);
    change.consequences = followed.changes;
    change.notCompared = followed.notCompared;
    const [rangeWas, rangeIs] = [sides.before.range, sides.after.range];
    if (!rangeWas || !rangeIs) return;
    const safe = (library: Library, range: typeof rangeWas, findings: readonly Finding[]) => ({
      library,
      range,
      silenced: new Set(findings.filter((f) => f.silenced).map((f) => f.name)),
    });
    change.verdicts.push(
      ...safeRangeVerdict(
        safe(this.before, rangeWas, this.findings("before", before)),
        safe(this.after, rangeIs, this.findings("after", after)),
      ),
    );
  }

  /** Changed declarations that the recipe rests on now or rested on before. */
  private reachedThrough(was: Recipe, is: Recipe): DeclarationChange["reachedThrough"] {
    const paths = new Map<string, string[]>();
    for (const side of ["before", "after"] as const) {
      for (const { declaration, path } of restsOn(side === "before" ? was : is, this[side])) {
        const name = nameOfDeclaration(declaration);
        if (this.touched[side].has(name)) paths.set(name, [...path]);
        const lots = `lots ${declaration.name.name}`;
        if (declaration.kind === "stock" && this.touched[side].has(lots))
          paths.set(lots, [...path, "lots on the shelf"]);
      }
    }
    return [...paths].map(([declaration, path]) => ({ declaration, path }));
  }

  private lone(head: Head, how: "added" | "removed"): DeclarationChange {
    const change = this.bare(head, how);
    const side: Side = how === "added" ? "after" : "before";
    change.facts = allStated(meaningOf(head.declaration), how);
    const findings = this.findings(side, head);
    change.verdicts = how === "added" ? verdicts([], findings) : verdicts(findings, []);
    change.level = change.verdicts.length > 0 ? "verdict" : "fact";
    return change;
  }

  /** Findings of what is compared no further: lots, inventories, text outside every declaration. */
  private elsewhere(told: ReadonlySet<string>): DeclarationChange[] {
    const pairsOf = new Set(this.matched.pairs.map((p) => p.after.key));
    const changes: DeclarationChange[] = [];
    for (const file of this.filesWithLooseEnds()) {
      const of = (library: Library) => grouped(library.findings(file), (f) => f.subject);
      const [was, is] = [of(this.before), of(this.after)];
      for (const subject of new Set([...was.keys(), ...is.keys()])) {
        if (told.has(subject) || pairsOf.has(subject)) continue;
        const [kind = "", name = ""] = subject.split(" ");
        if (kind !== "" && kind !== "lots") continue;
        const found = verdicts(was.get(subject) ?? [], is.get(subject) ?? []);
        if (found.length === 0) continue;
        const shownKind = kind === "" ? "text outside every declaration" : kind;
        changes.push({ ...empty(shownKind, name, file), verdicts: found, level: "verdict" });
      }
    }
    return changes;
  }

  /** Files that hold lots, text outside every declaration, or a changed declaration behind which such text may stand. */
  private filesWithLooseEnds(): Set<string> {
    const files = new Set([...this.before.inventoryFiles(), ...this.after.inventoryFiles()]);
    for (const { before, after } of this.matched.pairs) {
      if (before.text !== after.text) files.add(before.file).add(after.file);
    }
    for (const head of [...this.matched.added, ...this.matched.removed]) files.add(head.file);
    const isAnythingTouched = this.touched.before.size + this.touched.after.size > 0;
    for (const side of ["before", "after"] as const) {
      for (const head of this.heads[side]) if (head.kind === "lots" && isAnythingTouched) files.add(head.file);
      for (const file of this[side].files())
        if (looseText(this.before, file) !== looseText(this.after, file)) files.add(file);
    }
    return files;
  }

  private findings(side: Side, { key, file }: Head): Finding[] {
    return this[side].findings(file).filter((f) => f.subject === key);
  }

  private bare({ kind, name, file }: Head, how: DeclarationChange["how"]): DeclarationChange {
    return { ...empty(kind, name, file), how };
  }

  /** Every line of what differs that could not be read. */
  notRead(): Comparison["notRead"] {
    const { pairs, added, removed } = this.matched;
    const differing = pairs.filter((pair) => pair.before.text !== pair.after.text);
    return [
      ...[...differing.map((pair) => pair.before), ...removed].flatMap((head) => unreadIn(head, "before")),
      ...[...differing.map((pair) => pair.after), ...added].flatMap((head) => unreadIn(head, "after")),
    ];
  }
}

function unreadIn({ declaration, chunk, file, key }: Head, side: Side): Comparison["notRead"] {
  const { facts, steps } = meaningOf(declaration);
  const unread = [...facts, ...steps].filter((s) => !s.isRead).map((s) => s.shown);
  const layout = readingOf(chunk).tree.problems.map((p) => chunk.text.slice(p.start, Math.min(p.end, p.start + 60)));
  return [...new Set([...unread, ...layout])].map((words) => ({ side, file, subject: key, words }));
}

function empty(kind: string, name: string, file: string): DeclarationChange {
  const lists = { facts: [], consequences: [], verdicts: [], reachedThrough: [], notCompared: [] };
  return { kind, name, how: "same", file, level: "none" satisfies ChangeLevel, ...lists };
}

/** What stands above the first declaration of a file, or in a file without any; chunks begin with a declaration otherwise. */
function looseText(library: Library, file: string): string {
  const [first] = library.chunks(file);
  return first && !chunkHead(first.text) ? bareText(first.text) : "";
}

/** The text is the same on both sides, and so is every step. */
function unchanged(steps: readonly StepMeaning[]): StepPairs {
  return { same: steps.map((s): [StepMeaning, StepMeaning] => [s, s]), changed: [], moved: [], removed: [], added: [] };
}

/** Old name → new name of materials that differ in nothing else. */
function renamedMaterials(before: Recipe, after: Recipe, nameOf: NameOf): Map<string, string> {
  const rows = (recipe: Recipe, rename: NameOf) =>
    recipe.materials.map((m) => ({
      name: m.name.name,
      item: `${rename(m.item.name)} ${m.count?.written ?? ""} ${m.when ? "when" : ""}`,
    }));
  const [was, is] = [rows(before, nameOf), rows(after, sameName)];
  const gone = was.filter((m) => !is.some((o) => o.name === m.name));
  const come = is.filter((m) => !was.some((o) => o.name === m.name));
  const names = new Map<string, string>();
  for (const material of gone) {
    const twins = come.filter((m) => m.item === material.item);
    const rivals = gone.filter((m) => m.item === material.item);
    if (twins.length === 1 && rivals.length === 1) names.set(material.name, twins[0]!.name);
  }
  return names;
}
