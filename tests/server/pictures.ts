/** Tests as pictures: a text in which `|` marks the cursor and `⟦ ⟧` the places that are expected. */
import { mkdtempSync, realpathSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { onTestFinished } from "vitest";
import type { Position, Range } from "vscode-languageserver-protocol";
import { LineIndex } from "../../language/syntax/lines.ts";
import { type Editor, type EditorOptions, editor, uriOf } from "./client.ts";

export interface Picture {
  text: string;
  cursor: number;
  /** Marked stretches in order. */
  marked: { start: number; end: number }[];
}

export function picture(drawn: string): Picture {
  let text = "";
  let cursor = -1;
  const open: number[] = [];
  const marked: { start: number; end: number }[] = [];
  for (const sign of drawn) {
    if (sign === "|") cursor = text.length;
    else if (sign === "⟦") open.push(text.length);
    else if (sign === "⟧") marked.push({ start: open.pop()!, end: text.length });
    else text += sign;
  }
  return { text, cursor, marked };
}

export interface Scene extends Picture {
  e: Editor;
  path: string;
  uri: string;
  at: { textDocument: { uri: string }; position: Position };
  spot(range: Range): { start: number; end: number };
}

/** Opens a picture as a library of one file. */
export async function scene(drawn: string, options: Partial<EditorOptions> = {}): Promise<Scene> {
  const drawnNow = picture(drawn);
  const folder = realpathSync(mkdtempSync(join(tmpdir(), "misce-picture-")));
  const path = join(folder, "library.misce");
  writeFileSync(path, drawnNow.text);
  const e = await editor({ folders: [folder], options: { asOf: "2026-11-25" }, ...options });
  onTestFinished(async () => {
    await e.quit();
    rmSync(folder, { recursive: true, force: true });
  });
  const shown = e.next(path);
  await e.open(path, drawnNow.text);
  await shown;
  const lines = new LineIndex(drawnNow.text);
  return {
    ...drawnNow,
    e,
    path,
    uri: uriOf(path),
    at: { textDocument: { uri: uriOf(path) }, position: lines.place(Math.max(0, drawnNow.cursor)) },
    spot: ({ start, end }) => ({ start: lines.offset(start), end: lines.offset(end) }),
  };
}
