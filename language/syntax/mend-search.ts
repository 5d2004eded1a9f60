/**
 * What a text with braces or heads out of place was most likely meant to be: of all ways to read its lines in their blocks, the one
 * with the fewest and likeliest slips. It goes by the words alone: indentation and empty lines are the formatter's to set.
 */
import { blocksIn, type Fit, fitOf, isHeadOf, isPartOf, onceOnly, outside, unknownBlock } from "./blocks.ts";
import type { Element } from "./elements.ts";

/** How one element is read, and what has to be thought of before it. */
export interface Act {
  /** So many open blocks end before it, their braces missing. */
  closes: number;
  /** The block whose head is missing before it. */
  opens: string | undefined;
  how:
    | "as written"
    | "not read" // a brace, or a head, that is one too many
    | "head"; // a line that should have been a head, or a head with another word than its block
  /** Of a `head`: the kind of block that it begins. */
  kind?: string;
}

/** The open blocks, innermost first. */
interface Open {
  kind: string;
  around: Open | undefined;
  depth: number;
  /** Blocks already met in this declaration that may stand but once. */
  met: readonly string[];
  key: string;
}

interface Path {
  open: Open;
  cost: number;
  act: Act | undefined;
  before: Path | undefined;
}

/**
 * Costs of slips, set so that one line in the wrong place stays a line in the wrong place, and a run of lines that belong together
 * speaks for their block. Only their proportions matter.
 */
const cost = {
  misfit: 6,
  doubtful: 2,
  missingClose: 10,
  furtherClose: 2,
  missingHead: 12,
  missingOpen: 8,
  partOfHead: 10,
  otherHead: 13,
  unknownHead: 8,
  oddHead: 2,
  metBefore: 4,
  strayInside: 10,
  strayOutside: 8,
  /** A second head, or a brace alone, that is one too many. */
  strayOpening: 10,
} as const;

/** Every reading but the plain one has a slip that costs at least as much. */
const cheapestSlip = Math.min(
  cost.missingClose,
  cost.missingHead,
  cost.missingOpen,
  cost.partOfHead,
  cost.otherHead,
  cost.strayInside,
  cost.strayOutside,
  cost.strayOpening,
);

const fitCost: Readonly<Record<Fit, number>> = { fits: 0, doubtful: cost.doubtful, misfit: cost.misfit };

/** Readings kept side by side; the right one has never been seen beyond the first few. */
const widest = 24;
const dearest = 30;

const asWritten: Act = { closes: 0, opens: undefined, how: "as written" };
const top: Open = { kind: outside, around: undefined, depth: 0, met: [], key: "" };

/**
 * One act for each element.
 *
 * @param atMost what a reading that is known already costs: no part of a dearer one is gone on with
 */
export function likeliestReading(elements: readonly Element[], atMost = Number.POSITIVE_INFINITY): Act[] {
  let paths: Path[] = [{ open: top, cost: 0, act: undefined, before: undefined }];
  for (const element of elements) {
    const next = new Map<string, Path>();
    for (const path of paths) for (const step of stepsFrom(path, element)) if (step.cost <= atMost) keep(next, step);
    paths = cheapest([...next.values()]);
  }
  let best = paths[0]!;
  for (const path of paths) if (path.cost + endCost(path.open) < best.cost + endCost(best.open)) best = path;
  const acts: Act[] = [];
  for (let path: Path | undefined = best; path?.act; path = path.before) acts.push(path.act);
  return acts.reverse();
}

/** A block whose lines fit it but for one or two has lines in the wrong place; beyond that its head may be wrong. */
const misfitsBorne = 2;

export interface PlainReading {
  acts: Act[];
  /** Nothing in it asks for mending. */
  isSound: boolean;
  /** What it costs, beside the other readings; without end where a part could not be read. */
  cost: number;
}

/** The reading without any mending. */
export function plainReading(elements: readonly Element[]): PlainReading {
  let open = top;
  let isSound = true;
  let spent = 0;
  let misfits = 0;
  const acts = elements.map((element): Act => {
    const read = written(open, element);
    if (!read) {
      isSound = false;
      spent = Number.POSITIVE_INFINITY;
      return { ...asWritten, how: "not read" };
    }
    spent += read.spent;
    if (element.kind !== "line") misfits = 0;
    else if (read.spent >= cost.misfit) misfits += blocksIn(open.kind).length > 0 ? misfitsBorne + 1 : 1;
    if (misfits > misfitsBorne || (element.kind === "head" && read.spent > 0)) isSound = false;
    open = read.open;
    return asWritten;
  });
  const whole = spent + endCost(open);
  return { acts, isSound: (isSound && open.depth === 0) || whole < cheapestSlip, cost: whole };
}

function keep(into: Map<string, Path>, path: Path): void {
  const same = into.get(path.open.key);
  if (!same || path.cost < same.cost) into.set(path.open.key, path);
}

function cheapest(paths: Path[]): Path[] {
  paths.sort((a, b) => a.cost - b.cost);
  const limit = paths[0]!.cost + dearest;
  return paths.slice(0, widest).filter((p) => p.cost <= limit);
}

function endCost({ depth }: Open): number {
  return depth === 0 ? 0 : cost.missingClose + cost.furtherClose * (depth - 1);
}

function* stepsFrom(path: Path, element: Element): Iterable<Path> {
  yield* here(path, element, asWritten);
  if (element.kind === "close" || element.isTrailing) return;
  let { open } = path;
  for (let closes = 0; ; closes++) {
    const spent = closes === 0 ? 0 : cost.missingClose + cost.furtherClose * (closes - 1);
    const at: Path = { ...path, open, cost: path.cost + spent };
    const act: Act = { ...asWritten, closes };
    if (closes > 0) yield* here(at, element, act);
    for (const kind of headsBefore(open, element)) {
      const { open: inner, spent: again } = entered(open, kind);
      const missing = cost.missingHead + again;
      yield* here({ ...at, open: inner, cost: at.cost + missing }, element, { ...act, opens: kind });
    }
    // Never out of the declaration: what follows it would stand in column 1 once it is laid out.
    if (open.depth < 2) return;
    open = open.around!;
  }
}

/** Blocks of which this element may be the first line. */
function headsBefore(open: Open, { kind, words }: Element): readonly string[] {
  const known = blocksIn(open.kind);
  if (kind === "line") return known.filter((block) => block !== "only" && fitOf(block, words) === "fits");
  const word = words[0]?.word ?? "";
  return open.depth > 0 ? [] : known.filter((block) => blocksIn(block).includes(word));
}

function* here(path: Path, element: Element, act: Act): Iterable<Path> {
  const { open } = path;
  const { words } = element;
  const plain = written(open, element);
  if (plain) yield { open: plain.open, cost: path.cost + plain.spent, act, before: path };
  const to = (next: Open, spent: number, how: Act["how"], kind?: string): Path => {
    const read: Act = kind === undefined ? { ...act, how } : { ...act, how, kind };
    return { open: next, cost: path.cost + spent, act: read, before: path };
  };
  if (element.kind === "close") {
    yield to(open, open.depth > 0 ? cost.strayInside : cost.strayOutside, "not read");
    return;
  }
  if (element.kind === "head") {
    if (words.length === 0 || element.isRepeated) yield to(open, cost.strayOpening, "not read");
    if (open.depth === 0 || words.length === 0) return;
    for (const kind of blocksIn(open.kind)) {
      if (kind === words[0]!.word || kind === "only") continue;
      const { open: inner, spent: again } = entered(open, kind);
      yield to(inner, cost.otherHead + again, "head", kind);
    }
    return;
  }
  for (const kind of blocksIn(open.kind)) {
    const slip = headSlip(kind, open, element);
    if (slip === undefined) continue;
    const { open: inner, spent: again } = entered(open, kind);
    yield to(inner, slip + again, "head", kind);
  }
}

/** What it costs to take a line for the head of a block; undefined where it cannot be one. */
function headSlip(kind: string, open: Open, { words, isTrailing }: Element): number | undefined {
  const [first] = words;
  if (!first || isTrailing || kind === "only" || words.length > 2) return undefined;
  if (first.word === kind && isHeadOf(kind, words)) return cost.missingOpen;
  return open.depth > 0 && isPartOf(kind, first) ? cost.partOfHead : undefined;
}

/** As it stands; undefined where nothing can be read so. */
function written(open: Open, { kind, words, isTrailing }: Element): { open: Open; spent: number } | undefined {
  if (kind === "close") return open.around && { open: open.around, spent: 0 };
  if (kind === "line") {
    const goesWithAbove = isTrailing && open.kind !== "steps" && open.kind !== "only";
    return { open, spent: goesWithAbove ? 0 : fitCost[fitOf(open.kind, words)] };
  }
  const word = words[0]?.word ?? "";
  if (!blocksIn(open.kind).includes(word)) return { open: inner(open, unknownBlock), spent: cost.unknownHead };
  const { open: next, spent } = entered(open, word);
  return { open: next, spent: spent + (isHeadOf(word, words) ? 0 : cost.oddHead) };
}

/** Inside a block of the kind, which a declaration may hold but once, or as often as it likes. */
function entered(open: Open, kind: string): { open: Open; spent: number } {
  if (!onceOnly.has(kind)) return { open: inner(open, kind), spent: 0 };
  if (open.met.includes(kind)) return { open: inner(open, kind), spent: cost.metBefore };
  const met = [...open.met, kind].sort();
  return { open: inner({ ...open, met, key: keyOf(open.kind, open.around, met) }, kind), spent: 0 };
}

function inner(around: Open, kind: string): Open {
  return { kind, around, depth: around.depth + 1, met: [], key: keyOf(kind, around, []) };
}

function keyOf(kind: string, around: Open | undefined, met: readonly string[]): string {
  return `${around?.key ?? ""}/${kind}${met.join("+")}`;
}
