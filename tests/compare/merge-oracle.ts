/**
 * What a three-way merge may come to, worked out without the program: facts as bags by path, read row by row from the text. It knows
 * braces, comments, and that a `source` row which opens a block speaks for every fact of it that names none; nothing else.
 */

export interface Facts {
  /** How often each fact stands, by `path | words`. Steps are facts of their recipe here; their order is kept beside. */
  counts: Map<string, number>;
  /** Steps in order, by the path of their block. */
  steps: Map<string, string[]>;
}

interface Open {
  head: string;
  rows: string[];
}

/** Only for texts whose facts stand on one row each, as in the canonical form of the samples, sources of their own row aside. */
export function factsOf(text: string): Facts {
  const facts: Facts = { counts: new Map(), steps: new Map() };
  const open: Open[] = [];
  const close = () => {
    const { head, rows } = open.pop()!;
    const joined = withContinuations(rows);
    const names = (word: string) => joined.find((row) => row.startsWith(`${word} `)) ?? "";
    // Blocks of stability have no name: they are told apart by fluid and place.
    const label = head === "stable" ? `stable ${names("in")} ${names("at")}` : head;
    const path = [...open.map((o) => o.head), label].join("/");
    if (head === "steps") facts.steps.set(path, joined);
    const spoken = head === "steps" ? undefined : joined.find((row) => row.startsWith("source "));
    for (const row of joined) {
      const isOwn = row.startsWith("source ") || / source /.test(row.replace(/"[^"]*"/g, '""'));
      const key = `${path} | ${row}${spoken && !isOwn ? `  ${spoken}` : ""}`;
      facts.counts.set(key.replace(/ +/g, " "), (facts.counts.get(key.replace(/ +/g, " ")) ?? 0) + 1);
    }
  };
  for (const line of text.split(/\r?\n/)) {
    const row = plainRow(line);
    if (row === "") continue;
    if (row.endsWith("{")) open.push({ head: row.slice(0, -1).trim(), rows: [] });
    else if (row === "}") close();
    else open.at(-1)!.rows.push(row);
  }
  return facts;
}

/** A `source` row that does not open its block continues the row above it. */
function withContinuations(rows: readonly string[]): string[] {
  const joined: string[] = [];
  for (const row of rows) {
    if (row.startsWith("source ") && joined.length > 0) joined.push(`${joined.pop()} ${row}`);
    else joined.push(row);
  }
  return joined;
}

function plainRow(line: string): string {
  const at = line.replace(/"[^"]*"/g, (quoted) => "x".repeat(quoted.length)).search(/(?<=^|\s)#/);
  const bare = (at < 0 ? line : line.slice(0, at)).trim();
  return bare.replace(/"[^"]*"|\s+/g, (part) => (part.startsWith('"') ? part : " "));
}

/** The text with every conflict settled for one side. */
export function settledFor(text: string, side: "ours" | "theirs"): string {
  const conflict = /<{7} ours\n([\s\S]*?)\|{7} base\n[\s\S]*?={7}\n([\s\S]*?)>{7} theirs\n/g;
  return text.replace(conflict, side === "ours" ? "$1" : "$2");
}

export interface Sides {
  base: string;
  ours: string;
  theirs: string;
}

/** Facts that must stand once: two of them with other values say that nobody chose. */
const single = new Set(
  "dose route access method diluent-volume final-volume infuse-over infuse-at form appearance strength fill content container drug fluid density".split(
    " ",
  ),
);

/** Every way in which a merged text without conflict says what nobody wrote, or lacks what somebody did. */
export function faultsOf({ base, ours, theirs }: Sides, merged: string): string[] {
  const [b, o, t, m] = [base, ours, theirs, merged].map(factsOf) as [Facts, Facts, Facts, Facts];
  const faults: string[] = [];
  const count = (side: Facts, key: string) => side.counts.get(key) ?? 0;
  for (const key of new Set([b, o, t, m].flatMap((side) => [...side.counts.keys()]))) {
    const [was, mine, yours, is] = [count(b, key), count(o, key), count(t, key), count(m, key)];
    const told = `${key}: ${was} before, ${mine} in ours, ${yours} in theirs, ${is} merged`;
    if (mine === was && is !== yours) faults.push(told);
    else if (yours === was && is !== mine) faults.push(told);
    else if (mine === yours && is !== mine && is !== mine + yours - was) faults.push(told);
    else if (mine !== was && yours !== was && (is < Math.min(mine, yours) || is > mine + yours)) faults.push(told);
  }
  for (const [place, rows] of grouped([...m.counts.keys()])) {
    const most = Math.max(...[b, o, t].map((side) => grouped([...side.counts.keys()]).get(place)?.length ?? 0));
    if (rows.length > Math.max(1, most)) faults.push(`${rows.length} values of one fact: ${rows.join("; ")}`);
  }
  return [...faults, ...orderFaults(b, o, t, m)];
}

/** By `path | word`, single facts alone. */
function grouped(keys: readonly string[]): Map<string, string[]> {
  const groups = new Map<string, string[]>();
  for (const key of keys) {
    const [path = "", row = ""] = key.split(" | ");
    const [word = ""] = row.split(" ");
    if (!single.has(word) || /\/(?:materials|steps|example)/.test(path) || / when /.test(row)) continue;
    const place = `${path} | ${word}`;
    groups.set(place, [...(groups.get(place) ?? []), key]);
  }
  return groups;
}

/** Two steps stand in the order of the side that changed it; where neither did, in the order that they had. */
function orderFaults(b: Facts, o: Facts, t: Facts, m: Facts): string[] {
  const faults: string[] = [];
  for (const [path, rows] of m.steps) {
    const [was, mine, yours] = [b, o, t].map((side) => side.steps.get(path) ?? []) as [string[], string[], string[]];
    const once = rows.filter((row) =>
      [rows, was, mine, yours].every((list) => list.filter((r) => r === row).length === 1),
    );
    for (const [k, one] of once.entries()) {
      for (const other of once.slice(k + 1)) {
        const isBefore = (list: readonly string[]) => list.indexOf(one) < list.indexOf(other);
        const wanted = isBefore(mine) === isBefore(was) ? isBefore(yours) : isBefore(mine);
        if (!wanted) faults.push(`${path}: "${one}" stands before "${other}"`);
      }
    }
  }
  return faults;
}

/** With conflicts: whichever side settles them all has what it alone changed, and nothing that neither wrote. */
export function conflictFaultsOf({ base, ours, theirs }: Sides, merged: string): string[] {
  const [b, o, t] = [base, ours, theirs].map(factsOf) as [Facts, Facts, Facts];
  const count = (side: Facts, key: string) => side.counts.get(key) ?? 0;
  return (["ours", "theirs"] as const).flatMap((side) => {
    const m = factsOf(settledFor(merged, side));
    const [own, other] = side === "ours" ? [o, t] : [t, o];
    return [...new Set([b, own, m].flatMap((each) => [...each.counts.keys()]))].flatMap((key) => {
      const isOthers = count(other, key) !== count(b, key);
      const isInvented = count(m, key) > Math.max(count(own, key), count(other, key), count(b, key));
      if (!isInvented && (isOthers || count(m, key) === count(own, key))) return [];
      return [`settled for ${side}: ${key}: ${count(own, key)} written, ${count(m, key)} merged`];
    });
  });
}
