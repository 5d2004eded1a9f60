/** `textDocument/hover`. */
import type { Hover, HoverParams } from "vscode-languageserver-protocol";
import { hoverAt } from "../../language/answers/hover.ts";
import { markup } from "../markup.ts";
import type { Answer } from "../serving.ts";
import { inPlace } from "./at.ts";

export const hover: Answer<HoverParams, Hover | null> = (serving, params) => {
  const at = inPlace(serving, params);
  const found = at && hoverAt(at.library, at.key, at.offset, serving.lastGood);
  if (!at || !found) return null;
  return { contents: markup(found.markdown, serving.client.hoverFormat), range: at.document.range(found) };
};
