/**
 * Two states of a library, compared by what they mean. Pure: both libraries are opened by whoever asks, with the same as-of date.
 *
 * Invariants: a declaration whose text and all that it rests on are the same is never told; equal quantities in other units, other
 * layout, other comments and another order of facts are no change; what could not be read is told and never taken for unchanged.
 * The work falls into parts, one for each file; who answers a part, and when, makes no difference to the whole (tested).
 */
import {
  type Comparison,
  changeLevels,
  comparisonSchema,
  type DeclarationChange,
  type Side,
} from "../../shared/comparison.ts";
import { safetyNotice } from "../../shared/report.ts";
import type { Library } from "../library.ts";
import { dateText } from "../model/dates.ts";
import { DeclarationChanges, type TaskAnswer } from "./declaration-changes.ts";
import { LooseEnds } from "./loose-ends.ts";

export interface CompareRequest {
  before: Library;
  after: Library;
  /** As the command names the two sides. */
  names: { before: string; after: string };
  version: string;
  notOpened: Comparison["notOpened"];
}

export function compareLibraries(request: CompareRequest): Comparison {
  const comparing = new Comparing(request.before, request.after);
  return comparing.whole(
    comparing.parts.map((_, part) => comparing.answer(part)),
    request,
  );
}

/** What is said of the declarations of one file, as plain data. */
export interface PartAnswer {
  tasks: [task: number, answer: TaskAnswer][];
  /** Undefined where text outside every declaration cannot have changed. */
  loose: DeclarationChange[] | undefined;
}

/** A comparison in parts. Two that were made from the same texts have the same parts. */
export class Comparing {
  /** One for each file, in an order that the texts alone decide. */
  readonly parts: readonly { file: string; tasks: readonly number[] }[];
  private readonly changes: DeclarationChanges;
  private readonly loose: LooseEnds;

  constructor(
    private readonly before: Library,
    private readonly after: Library,
  ) {
    this.changes = new DeclarationChanges(before, after);
    this.loose = new LooseEnds(before, after, this.changes);
    const parts = new Map<string, number[]>();
    for (const [task, { file }] of this.changes.tasks.entries()) {
      const tasks = parts.get(file);
      if (tasks) tasks.push(task);
      else parts.set(file, [task]);
    }
    this.parts = [...parts].map(([file, tasks]) => ({ file, tasks }));
  }

  answer(part: number): PartAnswer {
    const { file, tasks } = this.parts[part]!;
    return {
      tasks: tasks.map((task): [number, TaskAnswer] => [task, this.changes.answer(task)]),
      loose: this.loose.mayDiffer(file) ? this.loose.changesIn(file) : undefined,
    };
  }

  /** Frees what was worked out for a part that is not asked again. */
  release(part: number): void {
    for (const library of [this.before, this.after]) library.release(this.parts[part]!.file);
  }

  /** @param answers of all parts, in their order */
  whole(answers: readonly PartAnswer[], { names, version, notOpened }: Omit<CompareRequest, Side>): Comparison {
    const tasks = new Map(answers.flatMap((answer) => answer.tasks));
    const inOrder = this.changes.tasks.map((_, task) => tasks.get(task)!);
    const loose = new Map(
      answers.flatMap(({ loose }, part) => (loose ? [[this.parts[part]!.file, loose] as const] : [])),
    );
    const isTouched = this.changes.isAnythingTouched || inOrder.some((answer) => answer.isTouched);
    const elsewhere = this.loose.files(isTouched).flatMap((file) => loose.get(file) ?? this.loose.changesIn(file));
    const declarations = [...inOrder.flatMap((answer) => answer.changes), ...elsewhere].sort(byLevel);
    const { counts, level } = summary(declarations);
    return {
      schema: comparisonSchema,
      tool: { name: "misce", version },
      asOf: dateText(this.after.surroundings().asOf),
      before: names.before,
      after: names.after,
      level,
      exitStatus: notOpened.length > 0 ? 2 : level === "none" ? 0 : 1,
      counts,
      declarations,
      notRead: (["before", "after"] as const).flatMap((side) => inOrder.flatMap((answer) => answer.notRead[side])),
      notOpened,
      notice: safetyNotice,
    };
  }
}

/** The same comparison, as far as it is about some files: what changed in others is left in it as the way that reaches this one. */
export function aboutFiles(comparison: Comparison, isAsked: (file: string) => boolean): Comparison {
  const declarations = comparison.declarations.filter(
    (d) => isAsked(d.file) || (d.formerFile !== undefined && isAsked(d.formerFile)),
  );
  const { counts, level } = summary(declarations);
  const notRead = comparison.notRead.filter((each) => isAsked(each.file));
  const exitStatus = comparison.exitStatus === 2 ? 2 : level === "none" ? 0 : 1;
  return { ...comparison, declarations, notRead, counts, level, exitStatus };
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

/** Recipes first, the gravest of them first. */
export function byLevel(a: DeclarationChange, b: DeclarationChange): number {
  const recipes = Number(b.kind === "recipe") - Number(a.kind === "recipe");
  const levels = changeLevels.indexOf(b.level) - changeLevels.indexOf(a.level);
  return recipes || levels || (a.kind < b.kind ? -1 : a.kind > b.kind ? 1 : 0) || (a.name < b.name ? -1 : 1);
}
