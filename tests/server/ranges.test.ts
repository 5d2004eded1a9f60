/** Lines above recipes, orders with ranges, the run at one order, and the sheet in the preview. */
import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { expect, test } from "vitest";
import type { CodeAction, CodeLens, Hover, InlayHint, Range } from "vscode-languageserver-protocol";
import { checkByName } from "../../language/checks/registry.ts";
import { editorCommands, type RunAtAnswer, runAtRequest } from "../../shared/editor-requests.ts";
import { type Preview, previewRequest } from "../../shared/preview.ts";
import { fullAbilities } from "./client.ts";
import { type Scene, scene } from "./pictures.ts";

const samples = join(import.meta.dirname, "../../samples/library");
const vancomycin = "recipe vancomycin-loading {";

/** The sample library as one text, its ranged recipe among the rest. */
const ranged = (readdirSync(samples, { recursive: true }) as string[])
  .filter((name) => name.endsWith(".misce") && (!name.startsWith("recipes") || name.includes("vancomycin-loading")))
  .map((name) => readFileSync(join(samples, name), "utf8"))
  .join("\n");

const options = { asOf: "2026-11-25", commands: Object.values(editorCommands) };

const wholeText = { start: { line: 0, character: 0 }, end: { line: 100_000, character: 0 } };

async function lenses(s: Scene): Promise<CodeLens[]> {
  return s.e.ask<CodeLens[]>("textDocument/codeLens", { textDocument: { uri: s.uri } });
}

async function titles(s: Scene): Promise<string[]> {
  return (await lenses(s)).flatMap((l) => l.command?.title ?? []);
}

async function change(s: Scene, version: number, text: string): Promise<void> {
  const shown = s.e.next(s.path);
  await s.e.change(s.path, version, text);
  await shown;
}

test("a recipe without findings has no count above it, and one with findings has theirs", async () => {
  const check = checkByName.get("ampoule-not-disinfected")!;
  const s = await scene(check.good, { options });
  expect((await titles(s)).filter((t) => /finding|error|warning/.test(t))).toEqual([]);
  // Asked in the same breath as the change: the count is of the new text or there is none, and never that of the old one.
  await s.e.change(s.path, 2, check.bad);
  expect(await titles(s)).toContain(`1 ${check.severity}`);
  await s.e.change(s.path, 3, check.good);
  expect((await titles(s)).filter((t) => /finding|error|warning/.test(t))).toEqual([]);
});

test("a recipe that cannot be read to its end counts its faults too", async () => {
  const { good } = checkByName.get("ampoule-not-disinfected")!;
  const s = await scene(good.replace(/(steps \{\n)/, "$1    drwa 4 g from mag\n"), { options });
  expect((await titles(s)).some((t) => /^[1-9]\d* error/.test(t))).toBe(true);
});

test("the editor is told to ask for the lines again when findings have changed", async () => {
  const check = checkByName.get("ampoule-not-disinfected")!;
  const { workspace } = fullAbilities;
  const abilities = { ...fullAbilities, workspace: { ...workspace, codeLens: { refreshSupport: true } } };
  const s = await scene(check.good, { options, abilities });
  const asked = () => s.e.heard.filter((h) => h.method === "workspace/codeLens/refresh").length;
  const before = asked();
  await change(s, 2, check.bad);
  await expect.poll(asked, { timeout: 60_000 }).toBeGreaterThan(before);
});

test("the range of an order and how far it was decided stand above the recipe", async () => {
  const s = await scene(ranged, { options });
  const told = await titles(s);
  expect(told.find((t) => t.startsWith("weight 40 kg to 120 kg"))).toMatch(/: every check decided, \d+ pieces/);
});

test("a fault within the range is told with its stretch, and the run at its order opens", async () => {
  // 25 mg/kg at 50 mg/mL: above 60 kg more than 30 mL is drawn, which a 30 mL syringe does not hold.
  const text = ranged.replace("measure     syringe-50mL", "measure     syringe-30mL");
  expect(text).not.toBe(ranged);
  const s = await scene(text, { options });
  const lens = (await lenses(s)).find((l) => l.command?.title.startsWith("weight 40 kg to 120 kg: fails for "))!;
  expect(lens.command!.command).toBe(editorCommands.openRun);
  const [, recipe, shownAt] = lens.command!.arguments as string[];
  expect(recipe).toBe("vancomycin-loading");
  const finding = s.e.shown.get(s.uri)!.diagnostics.find((d) => d.code === "draw-beyond-syringe")!;
  const actions = await s.e.ask<CodeAction[]>("textDocument/codeAction", {
    textDocument: { uri: s.uri },
    range: finding.range,
    context: { diagnostics: [] },
  });
  const opens = actions.filter((a) => a.command?.command === editorCommands.openRun);
  expect(opens.length).toBeGreaterThan(0);
  const [uri, name, point] = opens[0]!.command!.arguments as [string, string, string];
  const fails = await s.e.ask<RunAtAnswer>(runAtRequest, { uri, recipe: name, point });
  expect("text" in fails && fails.text).toContain("draw-beyond-syringe");
  expect("text" in fails && fails.text).toContain(point);
  expect(shownAt).not.toBe("");
  // 25 mg/kg × 40 kg = 1,000 mg = 20 mL at 50 mg/mL: fits.
  const holds = await s.e.ask<RunAtAnswer>(runAtRequest, { uri, recipe: name, point: "weight 40 kg" });
  const shown = "text" in holds ? holds.text : holds.refusal;
  expect(shown).toMatch(/draw dose from vials[\s\S]*?moves 20 mL/);
  expect(shown).not.toContain("draw-beyond-syringe");
  expect(shown).toMatch(/inject measure into bag[\s\S]*?bag: 250 mL, vancomycin 4 mg\/mL/);
});

test("a run outside the range, or of what is not there, is refused in a sentence", async () => {
  const s = await scene(ranged, { options });
  const ask = (recipe: string, point: string) => s.e.ask<RunAtAnswer>(runAtRequest, { uri: s.uri, recipe, point });
  expect(await ask("vancomycin-loading", "weight 20 kg")).toMatchObject({ refusal: expect.stringMatching(/outside/) });
  expect(await ask("no-such", "weight 50 kg")).toMatchObject({ refusal: expect.stringMatching(/not there/) });
  expect(await ask("vancomycin-loading", "height 2 m")).toMatchObject({
    refusal: expect.stringMatching(/weight 50 kg/),
  });
});

test("hints show the range, what binds the use, the worst case and the rate", async () => {
  const s = await scene(ranged, { options });
  const params = { textDocument: { uri: s.uri }, range: wholeText };
  const hints = await s.e.ask<InlayHint[]>("textDocument/inlayHint", params);
  const rowOf = (words: string) =>
    s.text.slice(0, s.text.indexOf(words, s.text.indexOf(vancomycin))).split("\n").length - 1;
  const at = (words: string) =>
    hints.filter((h) => h.position.line === rowOf(words)).map((h) => String(h.label).trim());
  // Editors that gather the padding of a place before its first hint would otherwise glue the second to it.
  for (const [i, h] of hints.entries()) {
    const before = hints[i - 1]?.position;
    const isSecond = before?.line === h.position.line && before.character === h.position.character;
    expect(String(h.label).startsWith("  ")).toBe(isSecond);
    expect(h.paddingLeft).toBe(!isSecond);
  }
  expect(at("vials       vancomycin")).toContain("2 to 4 needed");
  // 25 mg/kg: 1 g in 250 mL for 40 kg, 2 g (capped) in 500 mL for 120 kg; for 60 kg it is 1.5 g in 500 mL, 3 mg/mL, so that
  // the ends are told as ends and not as bounds.
  expect(at("inject measure into bag")).toContain(
    "bag: 250 mL, vancomycin 4 mg/mL at weight 40 kg; 500 mL, vancomycin 4 mg/mL at weight 120 kg",
  );
  // 250 mL and 500 mL over 4 h.
  expect(
    at("preparation bag {").concat(
      at("appearance "),
      hints.map((h) => String(h.label)),
    ),
  ).toContain("given at 62.5 mL/h at weight 40 kg; 125 mL/h at weight 120 kg");
  // samples/library: the guide keeps vancomycin 24 h at room temperature; in the refrigerator the policy's 10 days come before 14.
  expect(at("use-within      24 h")[0]).toMatch(/^longest 24 h by vancomycin/);
  expect(at("use-within      10 days")[0]).toMatch(/^longest 10 days by usp-797-2023 category 2/);
  // 25 mg/kg × 40 kg = 1,000 mg, missed to either side at worst.
  const worst = /^at worst ([\d.,]+) mg to ([\d.,]+) mg at weight 40 kg; /.exec(at("dose            25 mg/kg")[0]!)!;
  const [least, most] = worst.slice(1).map((t) => Number(t.replace(",", "")));
  expect(least).toBeLessThan(1000);
  expect(most).toBeGreaterThan(1000);
});

test("hover on a stated use lists every limit and says which binds", async () => {
  const at = ranged.indexOf("10 days at refrigerator", ranged.indexOf(vancomycin));
  const s = await scene(`${ranged.slice(0, at)}|${ranged.slice(at)}`, { options });
  const hover = await s.e.ask<Hover>("textDocument/hover", s.at);
  const { value } = hover.contents as { value: string };
  expect(value).toMatch(/this one binds/);
  expect(value).toMatch(/the recipe states 10 days/);
});

test("while one step is broken, hover and colours of the others stay", async () => {
  const s = await scene(ranged, { options });
  const params = { textDocument: { uri: s.uri } };
  const whole = await s.e.ask<{ data: number[] }>("textDocument/semanticTokens/full", params);
  const draw = s.text.slice(0, s.text.indexOf("draw dose from vials")).split("\n").length - 1;
  const position = { line: draw, character: 7 };
  const before = await s.e.ask<Hover>("textDocument/hover", { ...params, position });
  await change(s, 2, s.text.replace("    swirl vials until dissolved\n", "    swirl vials unt\n    # now\n"));
  const after = await s.e.ask<Hover>("textDocument/hover", { ...params, position: { line: draw + 1, character: 7 } });
  expect(after.contents).toEqual(before.contents);
  expect(after.range!.start.line).toBe(before.range!.start.line + 1);
  const broken = await s.e.ask<{ data: number[] }>("textDocument/semanticTokens/full", params);
  const rows = (data: number[]) => {
    const found = new Map<number, string>();
    let line = 0;
    for (let i = 0; i < data.length; i += 5) {
      line += data[i]!;
      found.set(line, `${found.get(line) ?? ""} ${data.slice(i + 1, i + 5).join(":")}`);
    }
    return found;
  };
  expect(rows(broken.data).get(draw + 1)).toBe(rows(whole.data).get(draw));
});

test.each(["utf-8", "utf-16", "utf-32"] as const)(
  "while a step is broken, hover, hints and colours stand at the right places in %s",
  async (encoding) => {
    // Letters of two, two and four bytes stand before, and on rows between; the same words are asked for in each unit.
    const strange = ranged
      .replace(vancomycin, `# µ é \u{1F489}\n${vancomycin}`)
      .replace(/(recipe vancomycin-loading \{\n\s+title\s+")/, "$1µ é \u{1F489} ");
    const s = await scene(strange, { options, abilities: { general: { positionEncodings: [encoding] } } });
    const broken = s.text.replace(
      "    swirl vials until dissolved\n",
      "    swirl vials unt # µ \u{1F489}\n    # \u{1F489} é\n",
    );
    expect(broken).not.toBe(s.text);
    const textDocument = { uri: s.uri };
    await s.e.ask("textDocument/inlayHint", { textDocument, range: wholeText }); // as an editor does, while the recipe is whole
    await change(s, 2, broken);
    const width = (row: string) => ({
      "utf-8": Buffer.byteLength(row),
      "utf-16": row.length,
      "utf-32": [...row].length,
    });
    const rows = broken.split("\n");
    const words = ({ start, end }: Range) => {
      const row = [...rows[start.line]!];
      const at = (character: number) =>
        row.findIndex((_, i) => width(row.slice(0, i).join(""))[encoding] === character);
      const to = at(end.character);
      return row.slice(at(start.character), to < 0 ? undefined : to).join("");
    };
    const draw = rows.findIndex((row) => row.includes("draw dose from vials"));
    const position = { line: draw, character: 6 };
    const hover = await s.e.ask<Hover>("textDocument/hover", { textDocument, position });
    expect(words(hover.range!)).toBe("draw");
    // The title holds the strange letters before its end, on its own row.
    const { data } = await s.e.ask<{ data: number[] }>("textDocument/semanticTokens/full", { textDocument });
    const told: string[] = [];
    let [line, character] = [0, 0];
    for (let i = 0; i < data.length; i += 5) {
      character = data[i] === 0 ? character + data[i + 1]! : data[i + 1]!;
      line += data[i]!;
      told.push(words({ start: { line, character }, end: { line, character: character + data[i + 2]! } }));
    }
    expect(told).toContain('"µ é \u{1F489} Vancomycin loading dose by body weight in sodium chloride 0.9 %"');
    expect(told).toContain("# \u{1F489} é");
    expect(told.filter((t) => t === "draw").length).toBeGreaterThan(0);
    const hints = await s.e.ask<InlayHint[]>("textDocument/inlayHint", { textDocument, range: wholeText });
    const inject = rows.indexOf("    inject measure into bag", draw);
    const moved = hints.find((h) => h.position.line === inject)!;
    expect(moved.position.character).toBe(width(rows[inject]!)[encoding]);
  },
);

test("the preview carries the sheet as it would be printed, and none where the steps cannot be followed", async () => {
  const s = await scene(ranged, { options });
  const line = s.text.slice(0, s.text.indexOf(vancomycin)).split("\n").length;
  const ask = () => s.e.ask<Preview>(previewRequest, { uri: s.uri, position: { line, character: 0 } });
  const { sheet } = await ask();
  expect(sheet!.html).toContain("Vancomycin loading dose by body weight");
  expect(sheet!.shownFor).toMatch(/^weight 40 kg \(the least that is ordered\), prepared 2026-11-25 \d\d:\d\d$/);
  const lines = s.text.split("\n");
  for (const { range } of sheet!.steps) expect(lines[range.start.line]).toMatch(/^ {4}[a-z]/);
  await change(s, 2, s.text.replace("draw dose from vials", "drwa dose from vials"));
  expect((await ask()).sheet).toBeUndefined();
});
