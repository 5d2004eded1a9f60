/**
 * Any edits, one after another: what the incremental library answers equals a library made new from the same texts, and nothing
 * crashes. Seeded; MISCE_LONG=1 makes 100,000 of them.
 */
import { readdirSync, readFileSync, statSync } from "node:fs";
import { join } from "node:path";
import { expect, test } from "vitest";
import { Library } from "../../language/library.ts";

const asOf = "2026-11-25";
const isLong = process.env.MISCE_LONG === "1";
const edits = isLong ? 100_000 : 300;
/** Comparing with a new library costs far more than an edit: now and then is enough, since a stale finding stays. */
const compareEvery = isLong ? 500 : 60;

function seeded(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let t = Math.imul(state ^ (state >>> 15), state | 1);
    t = (t + Math.imul(t ^ (t >>> 7), t | 61)) ^ t;
    return ((t ^ (t >>> 14)) >>> 0) / 2 ** 32;
  };
}

function filesUnder(folder: string): string[] {
  return readdirSync(folder).flatMap((name) => {
    const path = join(folder, name);
    return statSync(path).isDirectory() ? filesUnder(path) : path.endsWith(".misce") ? [path] : [];
  });
}

const pieces = [
  "{",
  "}",
  "\n",
  " ",
  "recipe x {\n",
  "stock magnesium-vial-10 {\n}\n",
  '"',
  "1",
  "0 mL",
  "\uFEFF",
  "# ",
  "\u{1F489}",
  "µg",
  "site {\n",
  "drug",
];

function edited(text: string, random: () => number, others: readonly string[]): string {
  const at = Math.floor(random() * (text.length + 1));
  switch (Math.floor(random() * 6)) {
    case 0:
      return text.slice(0, at) + text.slice(at + 1 + Math.floor(random() * 8));
    case 1:
      return text.slice(0, at) + pieces[Math.floor(random() * pieces.length)]! + text.slice(at);
    case 2: {
      const lines = text.split("\n");
      lines.splice(Math.floor(random() * lines.length), 1);
      return lines.join("\n");
    }
    case 3: {
      const lines = text.split("\n");
      const from = Math.floor(random() * lines.length);
      lines.splice(Math.floor(random() * lines.length), 0, lines[from]!);
      return lines.join("\n");
    }
    case 4:
      return others[Math.floor(random() * others.length)]!;
    default:
      return text.replace(/\d+/g, (n) => (random() < 0.1 ? `${n}0` : n));
  }
}

test(`${edits} random edits over the sample library`, () => {
  const random = seeded(20261125);
  // A part of the library keeps the comparison affordable: everything that the magnesium and vancomycin recipes rest on.
  const paths = filesUnder("samples/library").filter((p) => !/recipes\//.test(p) || /magnesium|vancomycin/.test(p));
  const good = new Map(paths.map((p) => [p, readFileSync(p, "utf8")]));
  const texts = new Map(good);
  const library = new Library({ asOf });
  for (const [file, text] of texts) library.open(file, text);
  const all = [...good.values()];
  const recent: string[] = [];
  for (let i = 1; i <= edits; i++) {
    const file = paths[Math.floor(random() * paths.length)]!;
    const before = texts.get(file);
    // Half of the edits put a text right again, so that the library does not drown in faults.
    const kind = random();
    if (kind < 0.05 && before !== undefined) {
      texts.delete(file);
      library.close(file);
    } else {
      const now = kind < 0.5 ? good.get(file)! : edited(before ?? good.get(file)!, random, all);
      texts.set(file, now);
      library.change(file, now);
    }
    recent.push(file);
    library.findings(paths[Math.floor(random() * paths.length)]!);
    if (random() < 0.02) library.rest(file);
    if (i % compareEvery === 0 || i === edits) {
      const fresh = new Library({ asOf });
      for (const [path, text] of texts) fresh.open(path, text);
      for (const path of texts.keys()) {
        expect(library.findings(path), `edit ${i}, ${path}; last edited: ${recent.slice(-5).join(", ")}`).toEqual(
          fresh.findings(path),
        );
      }
    }
  }
}, 3_600_000);
