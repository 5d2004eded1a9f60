/** Where a place of an earlier text stands in a later one, told by what both have in common before and after the edit. */

export interface EditBetween {
  /** Rows of the earlier text that the edit touched, as offsets: from the start of the first to the end of the last. */
  from: number;
  to: number;
  /** The same rows in the later text end here. */
  toNow: number;
  by: number;
}

export function editBetween(before: string, now: string): EditBetween {
  const most = Math.min(before.length, now.length);
  let same = 0;
  while (same < most && before.charCodeAt(same) === now.charCodeAt(same)) same++;
  let tail = 0;
  while (tail < most - same && before.charCodeAt(before.length - 1 - tail) === now.charCodeAt(now.length - 1 - tail))
    tail++;
  const from = before.lastIndexOf("\n", same - 1) + 1;
  const newline = before.indexOf("\n", before.length - tail);
  const to = newline < 0 ? before.length : newline;
  const by = now.length - before.length;
  return { from, to, toNow: to + by, by };
}

/** Undefined on rows that the edit touched. */
export function placeNow(edit: EditBetween, before: number): number | undefined {
  if (before < edit.from) return before;
  return before > edit.to ? before + edit.by : undefined;
}

export function placeBefore(edit: EditBetween, now: number): number | undefined {
  if (now < edit.from) return now;
  return now > edit.toNow ? now - edit.by : undefined;
}
