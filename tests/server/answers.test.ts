/** What the editor is answered, as pictures. */
import { expect, test } from "vitest";
import type {
  CodeAction,
  CompletionList,
  Hover,
  InlayHint,
  Location,
  WorkspaceEdit,
} from "vscode-languageserver-protocol";
import { checkByName } from "../../language/checks/registry.ts";
import { lineOf } from "./fresh.ts";
import { scene } from "./pictures.ts";

const library = checkByName.get("ampoule-not-disinfected")!.good;
const bad = checkByName.get("ampoule-not-disinfected")!.bad;

function withCursor(text: string, before: string, offset = 0): string {
  const at = text.indexOf(before);
  if (at < 0) throw new Error(`"${before}" does not stand in the text`);
  return `${text.slice(0, at + offset)}|${text.slice(at + offset)}`;
}

test("rename changes every use of a material and nothing of the same name elsewhere", async () => {
  const materials = /materials \{\n\s+(\S+)/.exec(library)![1]!;
  const marked = withCursor(library, `\n    ${materials} `, 5 + 1);
  const s = await scene(marked);
  const edit = await s.e.ask<WorkspaceEdit>("textDocument/rename", { ...s.at, newName: "first-thing" });
  const [change] = edit.documentChanges as { edits: { range: Parameters<typeof s.spot>[0]; newText: string }[] }[];
  const spots = change!.edits.map((x) => s.spot(x.range));
  for (const { start, end } of spots) expect(s.text.slice(start, end)).toBe(materials);
  // Within the recipe every standing-alone use is renamed.
  const recipe = s.text.indexOf("recipe ");
  const steps = s.text.slice(recipe);
  const uses = [...steps.matchAll(new RegExp(`(?<![\\w.-])${materials}(?![\\w.-])`, "g"))].map((m) => recipe + m.index);
  expect(spots.map((x) => x.start).sort((a, b) => a - b)).toEqual(uses);
});

test("rename says why not", async () => {
  const s = await scene(withCursor(library, "syringe-10mL", 3));
  await expect(s.e.ask("textDocument/prepareRename", s.at)).rejects.toThrow(/built in/);
  const name = /drug (\S+) \{/.exec(library)![1]!;
  const t = await scene(withCursor(library, `drug ${name} {`, 6));
  await expect(t.e.ask("textDocument/rename", { ...t.at, newName: "5-fluorouracil" })).rejects.toThrow(
    /Begin with a letter/,
  );
});

test("definition of a stock leads to its declaration", async () => {
  const stock = /stock (\S+) \{/.exec(library)![1]!;
  const use = library.lastIndexOf(` ${stock}`);
  const s = await scene(`${library.slice(0, use + 2)}|${library.slice(use + 2)}`);
  const [found] = await s.e.ask<Location[]>("textDocument/definition", s.at);
  expect(s.spot(found!.range).start).toBe(s.text.indexOf(`stock ${stock} {`) + 6);
});

test("a fix is made from present findings, whatever ranges and data the editor sends", async () => {
  // Letters that take two, two and four bytes stand before the fault on its own line.
  const text = library.replace(/lot "[^"]*"(\s+)expires/, 'lot "µé\u{1F489}"$1Expires');
  const s = await scene(text);
  const [own] = s.e.shown.get(s.uri)!.diagnostics;
  expect(own!.code).toBe("capital-letters");
  // As from an editor that counts bytes, and from one that drops `data`.
  const wrong = { ...own!, range: { start: { line: 0, character: 0 }, end: { line: 0, character: 1 } } };
  const { data: _, ...bare } = wrong;
  const actions = await s.e.ask<CodeAction[]>("textDocument/codeAction", {
    textDocument: { uri: s.uri },
    range: own!.range,
    context: { diagnostics: [bare] },
  });
  const fix = actions.find((a) => a.kind === "quickfix" && !a.title.includes("deviation"))!;
  const whole = await s.e.ask<CodeAction>("codeAction/resolve", fix);
  const [change] = whole.edit!.documentChanges as {
    edits: { range: Parameters<typeof s.spot>[0]; newText: string }[];
  }[];
  let now = s.text;
  for (const { range, newText } of [...change!.edits].reverse()) {
    const { start, end } = s.spot(range);
    now = now.slice(0, start) + newText + now.slice(end);
  }
  expect(now).toBe(text.replace("Expires", "expires"));
});

test.each(["utf-8", "utf-16", "utf-32"] as const)("places are right in %s", async (encoding) => {
  const text = bad.replace(/title\s+"/, (m) => `${m}µ é \u{1F489} `).replace(/^(recipe \S+ \{)$/m, "$1 # \u{1F489}µ");
  const line = text.split("\n").findIndex((l) => l.includes("title"));
  const drawn = text.replace(/(title\s+"[^"]*")/, "$1 nonsense");
  const s = await scene(drawn, {
    abilities: { general: { positionEncodings: [encoding] }, textDocument: { publishDiagnostics: {} } },
  });
  const found = s.e.shown.get(s.uri)!.diagnostics.find((d) => d.range.start.line === line)!;
  const row = drawn.split("\n")[line]!;
  const before = row.slice(0, row.indexOf("nonsense"));
  const widths = { "utf-8": Buffer.byteLength(before), "utf-16": before.length, "utf-32": [...before].length };
  expect(found.range.start.character).toBe(widths[encoding]);
});

test("completion offers the likely step first, then the verbs", async () => {
  const s = await scene(library.replace(/(steps \{\n)/, "$1    |\n"));
  const { items } = await s.e.ask<CompletionList>("textDocument/completion", s.at);
  expect(items[0]!.label).toBe("check label and expiry of mag, bag");
  expect(items.map((i) => i.label)).toEqual(expect.arrayContaining(["draw", "inject", "mix"]));
});

test("what begins as is typed stands before what only holds the letters", async () => {
  const s = await scene(library.replace(/(steps \{\n)/, "$1    dr|\n"));
  const { items } = await s.e.ask<CompletionList>("textDocument/completion", s.at);
  const begins = items.map((i) => i.label.startsWith("dr"));
  expect(begins[0]).toBe(true);
  expect(begins.lastIndexOf(true)).toBeLessThan(begins.indexOf(false));
  expect(items.map((i) => i.sortText)).toEqual(items.map((i) => i.sortText).sort());
});

test("completion offers the ordered drug's stock first, and figures that are worked out", async () => {
  const s = await scene(library.replace(/(materials \{\n\s+mag\s+)\S+/, "$1|"));
  const stocks = await s.e.ask<CompletionList>("textDocument/completion", s.at);
  expect(stocks.items[0]!.label).toBe("magnesium-ampoule");
  const t = await scene(library.replace(/\n\s+concentration\s+37\.04 mg\/mL/, "\n    concentration  |"));
  const figures = await t.e.ask<CompletionList>("textDocument/completion", t.at);
  expect(figures.items[0]!.label).toBe("37.04 mg/mL");
  const u = await scene(library.replace(/(draw 4 g from mag into syringe)\s+= 8 mL/, "$1 |"));
  const claims = await u.e.ask<CompletionList>("textDocument/completion", u.at);
  expect(claims.items.map((i) => i.label)).toContain("= 8 mL");
});

test("hover tells what a step moves, and lots with their dates", async () => {
  const amount = /draw (\S+ \S+) from/.exec(library)!;
  const s = await scene(withCursor(library, amount[0], 6));
  const hover = await s.e.ask<Hover>("textDocument/hover", s.at);
  expect((hover.contents as { value: string }).value).toMatch(/Moves \d[\d.]* mL/);
  const stock = /lots (\S+) \{/.exec(library)![1]!;
  const t = await scene(withCursor(library, `stock ${stock} {`, 8));
  const lots = await t.e.ask<Hover>("textDocument/hover", t.at);
  expect((lots.contents as { value: string }).value).toMatch(/Lots \(judged on 2026-11-25\)/);
});

test("while a step is broken, hints keep the last good figures on the other rows", async () => {
  const s = await scene(library);
  const range = { start: { line: 0, character: 0 }, end: { line: 400, character: 0 } };
  const ask = () => s.e.ask<InlayHint[]>("textDocument/inlayHint", { textDocument: { uri: s.uri }, range });
  const before = await ask();
  expect(before.length).toBeGreaterThan(1);
  const broken = s.text.replace(/\n {4}mix (\S+) by inverting/, "\n\n    mix $1 by inver");
  const next = s.e.next(s.path);
  await s.e.change(s.path, 2, broken);
  const diagnostics = await next;
  expect(diagnostics.map(lineOf).join("\n")).toMatch(/step-not-understood/);
  const after = await ask();
  const mixLine = s.text.split("\n").findIndex((l) => /^ {4}mix /.test(l));
  const kept = before.filter((h) => h.position.line < mixLine).map((h) => h.label);
  expect(kept.length).toBeGreaterThan(0);
  expect(after.map((h) => h.label)).toEqual(expect.arrayContaining(kept));
});
