/** The sentences of a comparison that all its printed forms share. Nothing here is ever read back. */
import type {
  Comparison,
  Consequence,
  DeclarationChange,
  FactChange,
  FigureChange,
  Verdict,
} from "../../shared/comparison.ts";
import { allOf } from "../bench/spoken.ts";
import { grouped } from "./pair-statements.ts";

export function headline({ level, counts, before, after, declarations }: Comparison): string {
  if (level === "none") return `Nothing changed in meaning between ${before} and ${after}.`;
  const parts = [
    counted(counts.facts, "stated fact", "stated facts"),
    counted(counts.consequences, "figure at the bench", "figures at the bench"),
    counted(counts.verdicts, "verdict of the checks", "verdicts of the checks"),
  ].filter((text) => text !== "");
  const told = allOf(parts) || "nothing but names";
  const reached = declarations.filter((d) => d.how === "same" && d.level !== "none").length;
  const changed = counts.declarations - reached;
  const between = `between ${before} and ${after}`;
  // What somebody edited and what only follows from it: fifty recipes that nobody touched are no fifty changes.
  if (changed === 0) {
    const says = reached === 1 ? "says" : "say";
    return `${counted(reached, "declaration", "declarations")} ${says} the same in ${before} and in ${after}, but something else follows: ${told}.`;
  }
  const further = reached === 0 ? "" : `, which ${changed === 1 ? "reaches" : "reach"} ${reached} more`;
  return `${counted(changed, "declaration", "declarations")} changed ${between}${further}: ${told}.`;
}

export function alarmLine({ counts }: Comparison): string {
  if (counts.alarms === 0) return "";
  const [which, whose, them] =
    counts.alarms === 1 ? ["One figure", "its", "it"] : [`${counts.alarms} figures`, "their", "them"];
  return `${which} changed by about ten, a hundred or a thousand times, changed ${whose} kind of unit, or stayed the same figure in another unit. Look at ${them} first.`;
}

function counted(n: number, one: string, several: string): string {
  return n === 0 ? "" : `${n} ${n === 1 ? one : several}`;
}

/** `recipe magnesium-4g was changed`. */
export function declarationLine(change: DeclarationChange): string {
  const { kind, name, how, formerName, file, formerFile, level } = change;
  const isReached = change.reachedThrough.length + change.consequences.length > 0;
  const what = `${kind}${name === "" || kind === "site" ? "" : ` ${name}`}`;
  const moved = formerFile === undefined ? "" : `moved from ${formerFile} to ${file}`;
  const words: Record<DeclarationChange["how"], string> = {
    added: "is new",
    removed: "was taken out",
    changed: "was changed",
    renamed: `was renamed from ${formerName}; it says the same`,
    "renamed and changed": `was renamed from ${formerName} and changed`,
    same:
      level === "none"
        ? ""
        : isReached
          ? "says the same, but what it rests on or what follows from it changed"
          : "is judged otherwise by the checks",
  };
  return `${what} ${[words[how], moved].filter((w) => w !== "").join("; it ")}`;
}

export function reachedLine({ declaration, path }: DeclarationChange["reachedThrough"][number]): string {
  return `through ${declaration} (${path.join(" → ")})`;
}

export function factLine({ block, how, before, after, figures }: FactChange): string {
  const where = block === "" ? "" : `${block}: `;
  const isNamed = figures.length > 1 || block === "materials";
  const told = figures.map((f) => {
    const words = changeWords(f);
    if (!isNamed) return words;
    return `${f.what}: ${words === "" ? `${f.before} → ${f.after}` : words}`;
  });
  const words = told.filter((w) => w !== "");
  const change = words.length > 0 ? `  (${words.join("; ")})` : "";
  switch (how) {
    case "added":
      return `${where}added: ${after}`;
    case "removed":
      return `${where}taken out: ${before}`;
    case "moved":
      return `${where}moved: ${before} → ${after}`;
    default:
      if (before === after && change === "")
        return `${where}${before}: the same words, but a name in them stands for something else, or for nothing`;
      return `${where}${before} → ${after}${change}`;
  }
}

/** `-2 g, -50 %`, and the alarm where there is one. */
export function changeWords({ difference, percent, factor, alarm }: FigureChange): string {
  const size = [difference, percent].filter((w) => w !== "").join(", ");
  // "10 times more" says the factor itself; that a unit was exchanged does not.
  const times = factor !== "" && !/ times /.test(alarm) && isFar(factor) ? factor : "";
  // Units keep their letters: only the warning itself is in capitals.
  return [size, times, alarm.replace(/^[^:]*/, (words) => words.toUpperCase())].filter((w) => w !== "").join(", ");
}

/** A factor says more than a percent only where it is far from one. */
function isFar(factor: string): boolean {
  const value = Number(factor.split(" ")[0]);
  return value >= 2 || value <= 0.5;
}

/** One figure a line; of a ranged order one figure a heading, with its points under it. */
function consequenceLines(changes: readonly Consequence[]): SectionLine[] {
  return [...grouped(changes, (c) => c.what)].flatMap(([what, rows]) =>
    rows.every((r) => r.at === "")
      ? rows.map((row) => ({ text: `${what}: ${figureWords(row)}`, under: [] }))
      : [{ text: what, under: rows.map((row) => `${pointWords(row)}: ${figureWords(row)}`) }],
  );
}

function pointWords({ at, because, isMost }: Consequence): string {
  const why = because === "" || because === "point of the range" ? [] : [because];
  if (isMost && because !== "changed most") why.push("changed most");
  return why.length > 0 ? `at ${at} (${why.join(", ")})` : `at ${at}`;
}

function figureWords(change: FigureChange): string {
  const none = change.what.startsWith("dose of ") ? "not ordered" : "none";
  const [before, after] = [change.before || none, change.after || none];
  const words = changeWords(change);
  return `${before} → ${after}${words === "" ? "" : `  (${words})`}`;
}

export function verdictLine({ how, name, severity, before, after }: Verdict): string {
  if (name === "") return `${how}: ${before} → ${after}`;
  if (how === "appeared") return `${severity} ${name} appeared: ${after}`;
  if (how === "went") return `${severity} ${name} went: ${before}`;
  if (how === "proof lost") return `proof lost, ${severity} ${name}: ${after}`;
  if (how === "proof won") return `proof won, ${name} went: ${before}`;
  if (how === "silenced now" || how === "no longer silenced") return `${severity} ${name} is ${how}: ${after}`;
  return `${severity} ${name} ${how}: ${before} → ${after}`;
}

export interface SectionLine {
  text: string;
  /** Lines that belong under it. */
  under: string[];
}

export interface ChangeSection {
  title: string;
  lines: SectionLine[];
}

const plainLine = (text: string): SectionLine => ({ text, under: [] });

/** The lines of one declaration under their headings; empty ones are left out. */
export function sectionsOf(change: DeclarationChange): ChangeSection[] {
  const facts =
    change.how === "added" || change.how === "removed" ? shortened(change.facts) : change.facts.map(factLine);
  return [
    { title: "Reached", lines: change.reachedThrough.map(reachedLine).map(plainLine) },
    { title: "Stated", lines: facts.map(plainLine) },
    { title: "At the bench", lines: consequenceLines(change.consequences) },
    { title: "Checks", lines: change.verdicts.map(verdictLine).map(plainLine) },
    { title: "Not compared", lines: change.notCompared.map(plainLine) },
  ].filter(({ lines }) => lines.length > 0);
}

/** Of a whole new declaration the first lines say enough; the JSON form has all. */
function shortened(facts: readonly FactChange[]): string[] {
  const most = 12;
  const lines = facts.slice(0, most).map(factLine);
  return facts.length > most ? [...lines, `and ${facts.length - most} more lines`] : lines;
}

export function unreadLines({ notRead, notOpened, before, after }: Comparison): string[] {
  const side = (of: "before" | "after") => (of === "before" ? before : after);
  return [
    ...notOpened.map((f) => `${f.file} in ${side(f.side)} was not opened: ${f.reason}`),
    ...notRead.map((f) => `${f.subject} in ${side(f.side)} (${f.file}) has a line that cannot be read: ${f.words}`),
  ];
}

/** What needs no section of its own: one line for many declarations of which the same is to be said. */
export function gathered(changes: readonly DeclarationChange[]): { told: DeclarationChange[]; lists: GatheredList[] } {
  const bare = (d: DeclarationChange) =>
    d.how === "same" && d.facts.length + d.consequences.length + d.verdicts.length + d.notCompared.length === 0;
  const isReached = (d: DeclarationChange) => bare(d) && d.reachedThrough.length > 0 && d.formerFile === undefined;
  const isMoved = (d: DeclarationChange) => bare(d) && d.reachedThrough.length === 0 && d.formerFile !== undefined;
  const way = (d: DeclarationChange) => `through ${d.reachedThrough.map((r) => r.declaration).join(" and ")}`;
  const move = (d: DeclarationChange) => `from ${d.formerFile} to ${d.file}`;
  const lists = [
    {
      title: "Recipes that rest on what changed, with no figure and no verdict of theirs changed",
      lines: linesBy(changes.filter(isReached), way, (d) => d.name),
    },
    {
      title: "Moved to another file, and the same",
      lines: linesBy(changes.filter(isMoved), move, (d) => (d.kind === "site" ? "site" : `${d.kind} ${d.name}`)),
    },
  ].filter(({ lines }) => lines.length > 0);
  return { told: changes.filter((d) => !isReached(d) && !isMoved(d)), lists };
}

export interface GatheredList {
  title: string;
  lines: string[];
}

const mostNames = 200;

function linesBy(
  changes: readonly DeclarationChange[],
  headOf: (d: DeclarationChange) => string,
  nameOf: (d: DeclarationChange) => string,
): string[] {
  return [...grouped(changes, headOf)].map(([head, group]) => {
    const names = group.map(nameOf);
    const more = names.length > mostNames ? ` and ${names.length - mostNames} more` : "";
    return `${head}: ${names.slice(0, mostNames).join(", ")}${more}`;
  });
}
