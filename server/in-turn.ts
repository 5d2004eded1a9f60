/**
 * What takes files from the disk is done one after another: where reading takes a while, an old text that comes late must not stand in
 * the place of a new one.
 */
import type { Serving } from "./serving.ts";

const last = new WeakMap<Serving, Promise<unknown>>();

/** Never from within other work that is in turn: it would wait for itself. */
export function inTurn<R>(serving: Serving, work: () => Promise<R>): Promise<R> {
  const done = (last.get(serving) ?? Promise.resolve()).then(work);
  last.set(
    serving,
    done.catch(() => undefined),
  );
  return done;
}
