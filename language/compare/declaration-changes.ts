/** Declaration by declaration, what changed in meaning and what follows from it. Each is answered on its own, in any order. */
import type { ChangeLevel, Comparison, DeclarationChange, Side } from "../../shared/comparison.ts";
import type { Finding } from "../../shared/finding.ts";
import { evaluateChunk } from "../checks/evaluate.ts";
import type { RangeJudgement } from "../checks/over-range.ts";
import type { Library } from "../library.ts";
import type { Recipe } from "../model/declaration.ts";
import { axesOf } from "../proof/order-axes.ts";
import { Asked } from "./asked.ts";
import { type NameOf, sameName } from "./canonical.ts";
import { type Consequences, consequences, figuresIfAlike } from "./consequences.ts";
import { allStated, type StatedChanges, statedChanges } from "./fact-changes.ts";
import { type Head, type HeadPair, headsOf, matchDeclarations } from "./match-declarations.ts";
import { meaningOf, readingOf, type StepMeaning } from "./meaning.ts";
import { grouped, type StepPairs } from "./pair-statements.ts";
import { Reach } from "./reach.ts";
import { ReachedThrough } from "./reached-through.ts";
import { renamedMaterials } from "./renamed-materials.ts";
import type { DeclaredAs } from "./same-amount.ts";
import { safeRangeVerdict, verdicts } from "./verdicts.ts";

/** A declaration that stands on both sides, or on one alone. */
type Task = { file: string } & ({ how: "pair"; pair: HeadPair } | { how: "added" | "removed"; head: Head });

/** Plain data. */
export interface TaskAnswer {
  changes: DeclarationChange[];
  /** Whether the declaration itself says something else. */
  isTouched: boolean;
  /** Every line of what differs that could not be read. */
  notRead: Record<Side, Comparison["notRead"]>;
}

export class DeclarationChanges {
  readonly heads: { before: Head[]; after: Head[] };
  readonly matched: ReturnType<typeof matchDeclarations>;
  readonly tasks: readonly Task[];
  private readonly renamed: NameOf;
  /**
   * Declarations that others rest on and whose own meaning differs, and all that came or went, by the name they have on each side.
   * Nothing rests on a recipe, so that those on both sides wait until they are asked.
   */
  private readonly touched = { before: new Set<string>(), after: new Set<string>() };
  private readonly statedOfShared = new Map<HeadPair, StatedChanges>();
  private readonly reach: Reach;
  private readonly reachedThrough: ReachedThrough;

  /** @param only the one recipe that is asked about, where the others need not be looked at: nothing rests on a recipe */
  constructor(
    private readonly before: Library,
    private readonly after: Library,
    only?: string,
  ) {
    const isLookedAt = ({ kind, name }: Head) => only === undefined || kind !== "recipe" || name === only;
    this.heads = { before: headsOf(before).filter(isLookedAt), after: headsOf(after).filter(isLookedAt) };
    this.matched = matchDeclarations(this.heads.before, this.heads.after);
    const { pairs, removed, added, renamed } = this.matched;
    this.renamed = (name) => renamed.get(name) ?? name;
    this.tasks = [
      ...pairs.map((pair): Task => ({ how: "pair", pair, file: pair.after.file })),
      ...removed.map((head): Task => ({ how: "removed", head, file: head.file })),
      ...added.map((head): Task => ({ how: "added", head, file: head.file })),
    ];
    for (const pair of pairs) if (pair.after.kind !== "recipe") this.touchShared(pair);
    for (const head of removed) this.touched.before.add(head.key);
    for (const head of added) this.touched.after.add(head.key);
    this.touchLots();
    this.reach = new Reach(before, after, this.touched);
    this.reachedThrough = new ReachedThrough(before, after, this.touched, this.renamed);
  }

  /** As far as it is known before the recipes are asked. */
  get isAnythingTouched(): boolean {
    return this.touched.before.size + this.touched.after.size > 0;
  }

  answer(number: number): TaskAnswer {
    const task = this.tasks[number]!;
    if (task.how === "pair") return this.pairAnswer(task.pair);
    const side: Side = task.how === "added" ? "after" : "before";
    const notRead = { before: [], after: [], [side]: unreadIn(task.head, side) };
    return { changes: [this.lone(task.head, task.how)], isTouched: true, notRead };
  }

  private pairAnswer(pair: HeadPair): TaskAnswer {
    const stated = this.statedOfShared.get(pair) ?? (pair.after.kind === "recipe" ? this.stated(pair) : undefined);
    const isDiffering = !pair.before.isWordedAs(pair.after);
    return {
      changes: this.pairChange(pair, stated),
      isTouched: (stated?.facts.length ?? 0) > 0,
      notRead: {
        before: isDiffering ? unreadIn(pair.before, "before") : [],
        after: isDiffering ? unreadIn(pair.after, "after") : [],
      },
    };
  }

  private touchShared(pair: HeadPair): void {
    const stated = this.stated(pair);
    if (!stated) return;
    this.statedOfShared.set(pair, stated);
    if (stated.facts.length === 0) return;
    this.touched.before.add(pair.before.key);
    this.touched.after.add(pair.after.key);
  }

  /** Lots are no part of a meaning, but what the checks say may change with them: told for whoever uses the stock. */
  private touchLots(): void {
    const lotsOf = (heads: readonly Head[], nameOf: NameOf) =>
      grouped(
        heads.filter((h) => h.kind === "lots"),
        (h) => nameOf(h.name),
      );
    const [was, is] = [lotsOf(this.heads.before, this.renamed), lotsOf(this.heads.after, sameName)];
    // The name of the stock is no part of what stands on the shelf.
    const joined = (lots: readonly Head[]) => lots.map((h) => h.text.replace(h.name, "")).join("\n");
    for (const name of new Set([...was.keys(), ...is.keys()])) {
      const [left, right] = [was.get(name) ?? [], is.get(name) ?? []];
      if (joined(left) === joined(right)) continue;
      for (const lots of [...left, ...right]) {
        this.touched.before.add(lots.key);
        this.touched.after.add(lots.key);
      }
    }
  }

  /** Undefined where the text was not touched and no name in it was changed. */
  private stated({ before, after }: HeadPair): StatedChanges | undefined {
    if (before.isWordedAs(after) && this.matched.renamed.size === 0) return undefined;
    const declarations = { before: before.declaration, after: after.declaration };
    const names = this.namesFor(declarations.before, declarations.after);
    const declaredAs: DeclaredAs = (side, kind, name) => {
      const [found, second] = this[side].declared(name).filter((d) => d.kind === kind);
      return second ? undefined : found;
    };
    return statedChanges(
      meaningOf(declarations.before, names),
      meaningOf(declarations.after),
      declarations,
      declaredAs,
    );
  }

  /** A material under another name with the same item is the same material; so its steps are the same steps. */
  private namesFor(before: HeadPair["before"]["declaration"], after: HeadPair["before"]["declaration"]): NameOf {
    if (before.kind !== "recipe" || after.kind !== "recipe")
      return this.matched.renamed.size > 0 ? this.renamed : sameName;
    const local = renamedMaterials(before, after, this.renamed);
    if (local.size === 0 && this.matched.renamed.size === 0) return sameName;
    return (name) => local.get(name) ?? this.renamed(name);
  }

  private pairChange(pair: HeadPair, stated: StatedChanges | undefined): DeclarationChange[] {
    const { before, after } = pair;
    const isRenamed = before.name !== after.name;
    const hasMoved = before.file !== after.file;
    const facts = [...(stated?.facts ?? []), ...(stated ? this.materialNames(pair) : [])];
    const isReached = this.reach.mayReach(before, after);
    if (facts.length === 0 && !isRenamed && !hasMoved && !isReached && before.isWordedAs(after)) return [];
    const change = this.bare(
      after,
      isRenamed ? (facts.length > 0 ? "renamed and changed" : "renamed") : facts.length > 0 ? "changed" : "same",
    );
    change.facts = facts;
    if (isRenamed) change.formerName = before.name;
    if (hasMoved) change.formerFile = before.file;
    if (after.kind === "recipe" && (facts.length > 0 || isReached)) {
      const was = before.declaration as Recipe;
      // The same text leads to the same names: then only one side has to be read.
      change.reachedThrough = this.reachedThrough.of(
        was,
        before.isWhollyAs(after) ? was : (after.declaration as Recipe),
      );
      const alike = facts.length === 0 && !isRenamed ? this.alike(change, pair) : undefined;
      if (alike) {
        if (change.reachedThrough.length > 0) change.notCompared = alike.notCompared;
        return this.levelled(change, hasMoved);
      }
      this.addBench(change, pair, stated);
    }
    const said = this.findings("before", before).map((f) => ({ ...f, message: this.inNewNames(f.message, pair) }));
    change.verdicts.unshift(...verdicts(said, this.findings("after", after)));
    return this.levelled(change, hasMoved || isRenamed);
  }

  /**
   * Only the lots and the site's decisions reach every recipe; most of them come to the same verdicts and the same figures. Undefined
   * where they may not, and the two sides have to be laid side by side.
   */
  private alike({ reachedThrough }: DeclarationChange, { before, after }: HeadPair): Consequences | undefined {
    const { tried, alike } = this.askedAlike;
    if (tried >= 12 && alike * 3 < tried) return undefined; // asking costs as much as half of laying the two side by side
    const { chunk, declaration: was } = before;
    const isWhole = before.isWhollyAs(after);
    // A second declaration of its name is told at the one that is read later, whatever that one says.
    if (this.before.declared(before.name).length !== this.after.declared(after.name).length) return;
    const isAway = reachedThrough.every(({ declaration }) => /^(?:site$|lots )/.test(declaration));
    if (was.kind !== "recipe" || !isWhole || !isAway || this.matched.renamed.size > 0 || axesOf(was).length > 0) return;
    this.askedAlike.tried++;
    const other = this.after.surroundings();
    const asked = new Asked(this.before.surroundings(), other);
    evaluateChunk(chunk, chunk.reading, asked.around);
    const same = followedOrFault(() => figuresIfAlike({ recipe: was, library: this.before, range: undefined }, asked));
    if (!asked.isAnsweredAlike(other)) return undefined;
    this.askedAlike.alike++;
    return same;
  }

  private readonly askedAlike = { tried: 0, alike: 0 };

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
    if (change.facts.length === 0 && change.reachedThrough.length === 0) return;
    const sides = {
      before: { recipe: was, library: this.before, range: this.before.judgement(was) },
      after: { recipe: is, library: this.after, range: this.after.judgement(is) },
    };
    if (isUnjudged(sides.before) || isUnjudged(sides.after)) {
      change.notCompared = [
        "The steps could not be followed over the range of the order, so figures were not laid side by side.",
      ];
      return;
    }
    const names = this.namesFor(was, is);
    const { steps } = stated ?? { steps: unchanged(meaningOf(is).steps) };
    const followed = followedOrFault(() => consequences(sides.before, sides.after, steps, names));
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

  private lone(head: Head, how: "added" | "removed"): DeclarationChange {
    const change = this.bare(head, how);
    const side: Side = how === "added" ? "after" : "before";
    change.facts = allStated(meaningOf(head.declaration), how);
    const findings = this.findings(side, head);
    change.verdicts = how === "added" ? verdicts([], findings) : verdicts(findings, []);
    change.level = change.verdicts.length > 0 ? "verdict" : "fact";
    return change;
  }

  private findings(side: Side, { key, file }: Head): Finding[] {
    return this[side].findings(file).filter((f) => f.subject === key);
  }

  /** What a check said before, with the names that are used after: a new name alone makes no other verdict. */
  private inNewNames(message: string, { before, after }: HeadPair): string {
    const names = new Map(this.matched.renamed);
    if (before.kind === "recipe" && !before.isWordedAs(after)) {
      const [was, is] = [before.declaration, after.declaration];
      if (was.kind === "recipe" && is.kind === "recipe")
        for (const [from, to] of renamedMaterials(was, is, this.renamed)) names.set(from, to);
    }
    if (names.size === 0) return message;
    const either = [...names.keys()].map((name) => name.replace(/[.\\+*?^$()[\]{}|]/g, "\\$&")).join("|");
    return message.replace(new RegExp(`(?<![\\w.-])(?:${either})(?![\\w-])`, "g"), (name) => names.get(name) ?? name);
  }

  private bare({ kind, name, file }: Head, how: DeclarationChange["how"]): DeclarationChange {
    return { ...empty(kind, name, file), how };
  }
}

/** The bench broke off by a fault of this program, which a finding tells as well; what else is said of the recipe still stands. */
function followedOrFault<T extends Consequences | undefined>(follow: () => T): T | Consequences {
  try {
    return follow();
  } catch {
    const why = "The steps could not be followed, by a fault of this program, so figures were not laid side by side.";
    return { changes: [], notCompared: [why] };
  }
}

/** The range was left aside by a fault of this program, which a finding tells. */
function isUnjudged({ recipe, range }: { recipe: Recipe; range: RangeJudgement | undefined }): boolean {
  return !range && axesOf(recipe).length > 0;
}

function unreadIn({ declaration, chunk, file, key }: Head, side: Side): Comparison["notRead"] {
  const { facts, steps } = meaningOf(declaration);
  const unread = [...facts, ...steps].filter((s) => !s.isRead).map((s) => s.shown);
  const layout = readingOf(chunk).tree.problems.map((p) => chunk.text.slice(p.start, Math.min(p.end, p.start + 60)));
  return [...new Set([...unread, ...layout])].map((words) => ({ side, file, subject: key, words }));
}

/** A change of which nothing is said yet. */
export function empty(kind: string, name: string, file: string): DeclarationChange {
  const lists = { facts: [], consequences: [], verdicts: [], reachedThrough: [], notCompared: [] };
  return { kind, name, how: "same", file, level: "none" satisfies ChangeLevel, ...lists };
}

/** The text is the same on both sides, and so is every step. */
function unchanged(steps: readonly StepMeaning[]): StepPairs {
  return { same: steps.map((s): [StepMeaning, StepMeaning] => [s, s]), changed: [], moved: [], removed: [], added: [] };
}
