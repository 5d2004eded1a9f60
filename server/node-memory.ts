/**
 * How the server in a process keeps its memory small all day beside an editor: it lets what it holds grow by a third between two
 * clearings and not four-fold, and clears when nobody works with it. What is new has a space of 4 MB: in 1 MB, with which V8 begins, a
 * quarter of the time of judging hundreds of recipes goes into clearing it; 16 MB, to which V8 would let it grow, win little more and
 * stay taken. Machine code with little inlined is hardly slower, takes 10 MB less, and is there sooner.
 */
import { getHeapSpaceStatistics, setFlagsFromString } from "node:v8";
import { runInNewContext } from "node:vm";

/** The starter of the bundle sets the same (build.mjs), since compiled code is taken up only under the flags that it was made under. */
export function keepMemorySmall(): void {
  setFlagsFromString("--heap-growing-percent=28");
  setFlagsFromString("--semi-space-growth-factor=1");
  setFlagsFromString("--max-inlined-bytecode-size=120");
  setFlagsFromString("--max-inlined-bytecode-size-cumulative=150");
  setFlagsFromString("--expose-gc");
  globalThis.gc = runInNewContext("gc") as NodeJS.GCFunction;
}

/** Both halves of the space for what is new, in bytes: one step above what V8 begins with and falls back to. */
const enoughForNew = 8e6;

let isGrowing = false;

/**
 * V8 takes a step when enough has outlived the space that there is, goes back when little is done, and has no word for where to stop:
 * it is told to take a step, and looked at in every pause. Not before the workspace is read: so much outlives that moment that it would
 * take two.
 */
function keepNewSpace(): void {
  const space = getHeapSpaceStatistics().find(({ space_name }) => space_name === "new_space");
  const isSmall = space !== undefined && space.space_size < enoughForNew;
  if (isSmall === isGrowing) return;
  isGrowing = isSmall;
  setFlagsFromString(`--semi-space-growth-factor=${isGrowing ? 4 : 1}`);
}

let slimming: NodeJS.Timeout | undefined;

/** Bytes from which clearing is worth its pause. */
const much = 150e6;

/**
 * Milliseconds without work after which memory is cleared. Asked for, a clearing also throws away machine code: whoever types on finds
 * the checks at half their speed for seconds. So not in the pauses of somebody at work.
 */
const calm = 60_000;

/** The engine keeps far more memory than it needs until it is asked to clear; that takes some 60 ms. */
export function slim(): void {
  keepNewSpace();
  clearTimeout(slimming);
  slimming = setTimeout(() => {
    if (process.memoryUsage.rss() > much) (globalThis.gc as (() => void) | undefined)?.();
  }, calm);
  slimming.unref();
}
