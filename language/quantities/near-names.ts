/** Known names near an unknown one, by edits of single letters without regard to case. */

/** At most three, nearest first; none that differ in more than half of their letters or in more than two. */
export function nearNames(text: string, names: readonly string[]): string[] {
  const wanted = text.toLowerCase();
  if (wanted.length > 40) return [];
  const allowed = Math.min(2, Math.max(1, Math.floor(wanted.length / 2)));
  return names
    .map((name, order) => ({ name, order, distance: edits(wanted, name.toLowerCase()) }))
    .filter(({ distance }) => distance <= allowed)
    .sort((a, b) => a.distance - b.distance || a.order - b.order)
    .slice(0, 3)
    .map(({ name }) => name);
}

function edits(a: string, b: string): number {
  let row = Array.from({ length: b.length + 1 }, (_, i) => i);
  for (let i = 1; i <= a.length; i += 1) {
    const next = [i];
    for (let j = 1; j <= b.length; j += 1) {
      const changed = row[j - 1]! + (a[i - 1] === b[j - 1] ? 0 : 1);
      next.push(Math.min(changed, row[j]! + 1, next[j - 1]! + 1));
    }
    row = next;
  }
  return row[b.length]!;
}
