/** Figures beside the text. What a hint is about is told when it is pointed at. */
import { type InlayHint, InlayHintKind, type InlayHintParams } from "vscode-languageserver-protocol";
import { Hints } from "../../language/answers/hints.ts";
import type { Answer, Serving } from "../serving.ts";
import { inFile } from "./at.ts";

const remembered = new WeakMap<Serving, Hints>();

export const inlayHints: Answer<InlayHintParams, InlayHint[] | null> = (serving, params) => {
  const at = inFile(serving, params.textDocument);
  if (!at || !serving.settings.hints) return null;
  const hints = remembered.get(serving) ?? new Hints();
  remembered.set(serving, hints);
  const { document } = at;
  return hints
    .of(at.library, at.key, document.offset(params.range.start), document.offset(params.range.end))
    .map((h, i, all) => {
      const position = document.position(h.at);
      // Some editors put the padding of all hints of a place before the first of them; the next then needs a gap of its own.
      const first = all[i - 1]?.at !== h.at;
      const label = first ? h.text : `  ${h.text}`;
      const hint: InlayHint = { position, label, kind: InlayHintKind.Type, paddingLeft: first, data: h.about };
      if (h.states !== undefined) hint.textEdits = [{ range: { start: position, end: position }, newText: h.states }];
      return hint;
    });
};

export const inlayHintResolve: Answer<InlayHint, InlayHint> = (_, hint) =>
  typeof hint.data === "string" ? { ...hint, tooltip: hint.data } : hint;
