/** `textDocument/signatureHelp`: the form of the step or fact being written. */
import type { SignatureHelp, SignatureHelpParams } from "vscode-languageserver-protocol";
import { signaturesAt } from "../../language/answers/signature.ts";
import type { Answer } from "../serving.ts";
import { inPlace } from "./at.ts";

export const signatureHelp: Answer<SignatureHelpParams, SignatureHelp | null> = (serving, params) => {
  const at = inPlace(serving, params);
  const lines = at ? signaturesAt(at.library, at.key, at.offset) : [];
  if (lines.length === 0) return null;
  return {
    signatures: lines.map((line) => ({
      label: line.text,
      documentation: line.about,
      parameters: line.parts.map((p) => ({
        label: serving.client.parameterOffsets
          ? ([p.start, p.end] as [number, number])
          : line.text.slice(p.start, p.end),
      })),
      ...(line.next === undefined || !serving.client.signatureParameter ? {} : { activeParameter: line.next }),
    })),
    activeSignature: 0,
    ...(lines[0]!.next === undefined ? {} : { activeParameter: lines[0]!.next }),
  };
};
