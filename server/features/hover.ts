/** `textDocument/hover`. */
import { type Hover, type HoverParams, MarkupKind } from "vscode-languageserver-protocol";
import { hoverAt } from "../../language/answers/hover.ts";
import type { Answer } from "../serving.ts";
import { inPlace } from "./at.ts";

export const hover: Answer<HoverParams, Hover | null> = (serving, params) => {
  const at = inPlace(serving, params);
  const found = at && hoverAt(at.library, at.key, at.offset, serving.lastGood);
  if (!at || !found) return null;
  return { contents: { kind: MarkupKind.Markdown, value: found.markdown }, range: at.document.range(found) };
};
