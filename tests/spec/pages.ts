/**
 * Reads the language reference by example (the pages beside this file). A fenced `misce` block is a case, read with the page's `misce
 * given` block in front of it. A fenced `diff` block is a case too: the last `misce` case above it, or what the page gives, with the
 * lines changed as a reviewer would see it. A line of the form `#   ^^^^ name-of-finding` under a line marks the words above the carets;
 * `#< name-of-finding` marks the whole line above.
 */
import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";

export interface Case {
  title: string;
  /** Offset in the page's line count, for messages. */
  line: number;
  /** What the case is read with; empty where a change reaches into it. */
  given: string;
  text: string;
  /** As `name: words`, sorted. */
  expected: string[];
}

export interface Page {
  name: string;
  cases: Case[];
  /** Lines that a change names and that do not stand in its base. */
  faults: string[];
}

export function readPages(): Page[] {
  const names = readdirSync(import.meta.dirname).filter((name) => name.endsWith(".md"));
  return names.sort().map((name) => readPage(name, readFileSync(join(import.meta.dirname, name), "utf8")));
}

interface Fence {
  kind: string;
  line: number;
  lines: string[];
}

function readPage(name: string, text: string): Page {
  const page: Page = { name, cases: [], faults: [] };
  let given = "";
  let base = "";
  let title = "";
  let fence: Fence | undefined;
  text.split("\n").forEach((line, i) => {
    if (fence) {
      if (line !== "```") fence.lines.push(line);
      else {
        if (fence.kind === "misce given") {
          given += `${fence.lines.join("\n")}\n\n`;
          base = "";
        } else if (fence.kind === "diff") {
          const changed = applied(`${given}${base}`.split("\n"), fence.lines);
          if (typeof changed === "string") page.faults.push(`${title}: ${changed}`);
          else page.cases.push({ title, line: fence.line, given: "", ...changed });
        } else {
          const own = parted(fence.lines.map((l) => ({ text: l, shift: 0 })));
          base = own.text;
          page.cases.push({ title, line: fence.line, given, ...own });
        }
        fence = undefined;
      }
      return;
    }
    const heading = /^#+ (.+)$/.exec(line);
    if (heading) title = heading[1]!;
    const opening = /^```(misce given|misce|diff)$/.exec(line);
    if (opening) fence = { kind: opening[1]!, line: i + 1, lines: [] };
  });
  return page;
}

interface Written {
  text: string;
  /** Columns by which a mark under it stands to the right of the words: one in a change, whose lines begin with a sign. */
  shift: number;
}

/** The base with its lines changed; what could not be found, as a text. Lines are looked for downwards from the last one met. */
function applied(base: readonly string[], change: readonly string[]): { text: string; expected: string[] } | string {
  const out: Written[] = [];
  let at = 0;
  for (const line of change) {
    const rest = line.slice(1);
    if (line.startsWith("#")) {
      out.push({ text: line, shift: 1 });
      continue;
    }
    if (line.startsWith("+")) {
      out.push({ text: rest, shift: 1 });
      continue;
    }
    const found = base.indexOf(rest, at);
    if (found < 0) return `the line "${rest}" does not stand below the ones before it`;
    for (; at < found; at++) out.push({ text: base[at]!, shift: 0 });
    at = found + 1;
    if (!line.startsWith("-")) out.push({ text: rest, shift: 1 });
  }
  for (; at < base.length; at++) out.push({ text: base[at]!, shift: 0 });
  return parted(out);
}

const wholeLine = /^#< ([a-z0-9-]+)$/;
const mark = /^#( *)(\^+) ([a-z0-9-]+)$/;

/** The text without its marks, and what they expect. */
function parted(written: readonly Written[]): { text: string; expected: string[] } {
  const lines: string[] = [];
  const expected: string[] = [];
  for (const { text, shift } of written) {
    const whole = wholeLine.exec(text)?.[1];
    const [, blanks, carets, name] = mark.exec(text) ?? [];
    if (whole !== undefined) expected.push(`${whole}: ${lines.at(-1)!}`);
    else if (carets === undefined) lines.push(text);
    else {
      const start = blanks!.length + 1 - shift;
      expected.push(`${name}: ${lines.at(-1)!.slice(start, start + carets.length)}`);
    }
  }
  return { text: `${lines.join("\n")}\n`, expected: expected.sort() };
}
