/**
 * What is worked out about a thing that never changes (a declaration, its plan, a finished run) is kept with that thing: worked out
 * once, and gone when the thing is.
 *
 * Not in a WeakMap, which reads the same. To the collector whatever an old table holds is in use until the whole memory is cleared, so
 * that the tree of every keystroke outlived the next, and clearing the whole memory was what an author waited for longest.
 */

/** One answer, and the next that is kept with the same thing. */
interface Kept {
  /** A copy made by spreading brings the list of the other along, whose answers are not its own. */
  readonly of: object;
  readonly question: unknown;
  readonly answer: unknown;
  readonly next: Kept | undefined;
}

const list = Symbol("kept");

interface Keeping {
  [list]?: Kept;
}

/** The same question, answered once for each thing. Answers are shared and must not be changed. */
export function keptWith<K extends object, T>(work: (thing: K) => T): (thing: K) => T {
  return (thing) => {
    const keeping: Keeping = thing;
    for (let kept = keeping[list]; kept; kept = kept.next)
      if (kept.question === work && kept.of === thing) return kept.answer as T;
    const answer = work(thing);
    // Working it out may have asked other things of the same one: they are in the list by now.
    keeping[list] = { of: thing, question: work, answer, next: keeping[list] };
    return answer;
  };
}
