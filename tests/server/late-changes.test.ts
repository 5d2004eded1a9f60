/**
 * Strokes that come out of order, as one editor was seen to send them (`d`, `r`, ` `, `a`, `w` with the numbers 3, 4, 7, 5, 6): the
 * text checked is the text that the author sees.
 */
import { expect, test } from "vitest";
import { Document } from "../../server/document.ts";
import { inOrder, type Skip } from "../../server/late-changes.ts";
import { seeded } from "../bench/generate.ts";
import { scene } from "./pictures.ts";

interface Change {
  version: number;
  changes: { range: { start: Place; end: Place }; text: string }[];
}
interface Place {
  line: number;
  character: number;
}

function typedAt(character: number, text: string, first: number): Change[] {
  return [...text].map((letter, i) => {
    const place = { line: 0, character: character + i };
    return { version: first + i, changes: [{ range: { start: place, end: place }, text: letter }] };
  });
}

function taken(text: string, version: number, changes: readonly Change[]) {
  let now = new Document("a", "file:///a.misce", version, text, "utf-16");
  let skip: Skip | undefined;
  for (const change of changes) ({ now, skip } = inOrder(now, skip, change));
  return { now, skip };
}

test("strokes that overtake each other in the middle of a line are put in order", () => {
  const [d, r, a, w, blank] = typedAt(4, "draw ", 3);
  const { now, skip } = taken("    from vial", 2, [d!, r!, blank!, a!, w!]);
  expect(now.text).toBe("    draw from vial");
  expect(now.version).toBe(7);
  expect(skip).toBeUndefined();
});

test("any order within a few strokes gives the same text", () => {
  const random = seeded(7);
  for (let round = 0; round < 200; round++) {
    const changes = typedAt(3, "draw 50 mg", 2);
    const shuffled: Change[] = [];
    while (changes.length > 0) shuffled.push(changes.splice(Math.floor(random() * Math.min(4, changes.length)), 1)[0]!);
    expect(taken("a  z", 1, shuffled).now.text).toBe("a  draw 50 mgz");
  }
});

test("numbers that are skipped for good change nothing", () => {
  const [a, b] = typedAt(0, "ab", 10);
  const [c] = typedAt(2, "c", 20);
  const { now } = taken("z", 1, [a!, b!, c!]);
  expect(now.text).toBe("abcz");
  const many = typedAt(0, "a".repeat(40), 5);
  expect(taken("z", 1, many).skip).toBeUndefined(); // the text before the gap is not kept for ever
});

test("an editor that gives every change the same number is followed as it comes", () => {
  const changes = typedAt(0, "abc", 1).map((c) => ({ ...c, version: 1 }));
  expect(taken("z", 1, changes).now.text).toBe("abcz");
});

test("findings after strokes out of order are those of the text that was typed", async () => {
  const s = await scene('recipe r {\n  note "a"\n}\n');
  const whole = typedAt(11, " x y", 2).map((c) => ({
    version: c.version,
    changes: c.changes.map((x) => ({ text: x.text, range: at(1, x.range.start.character - 2) })),
  }));
  const [first, second, third, fourth] = whole;
  for (const c of [first!, fourth!, third!, second!])
    await s.e.tell("textDocument/didChange", {
      textDocument: { uri: s.uri, version: c.version },
      contentChanges: c.changes,
    });
  await s.e.ask("textDocument/foldingRange", { textDocument: { uri: s.uri } });
  expect([...s.e.serving!.session.openDocuments()].find((d) => d.uri === s.uri)!.text).toBe(
    'recipe r {\n  note "a x y"\n}\n',
  );
});

function at(line: number, character: number) {
  return { start: { line, character }, end: { line, character } };
}
