/** Addresses of references, and from a source to the reference it names. */
import type { DocumentLink, DocumentLinkParams } from "vscode-languageserver-protocol";
import { occurrencesIn } from "../../language/answers/occurrences.ts";
import type { Answer } from "../serving.ts";
import { inFile, locationOf } from "./at.ts";

export const documentLinks: Answer<DocumentLinkParams, DocumentLink[] | null> = (serving, params) => {
  const at = inFile(serving, params.textDocument);
  if (!at) return null;
  const links: DocumentLink[] = [];
  for (const chunk of at.library.chunks(at.key)) {
    const range = (spot: { start: number; end: number }) =>
      at.document.range({ start: chunk.base + spot.start, end: chunk.base + spot.end });
    for (const declaration of chunk.reading.declarations) {
      if (declaration.kind === "reference") {
        const url = declaration.facts.one("url")?.slots.text;
        if (url && /^https?:\/\//.test(url.text))
          links.push({ range: range(url), target: url.text, tooltip: "Open the source" });
      }
      for (const name of occurrencesIn(declaration)) {
        if (name.declares || !name.kinds.includes("reference")) continue;
        const reference = at.library.declared(name.name).find((d) => d.kind === "reference");
        const to = reference && locationOf(serving, at.library, { ...reference.name, chunk: reference.chunk });
        if (!to) continue;
        const title = reference.kind === "reference" ? reference.facts.one("title")?.slots.text.text : undefined;
        const target = `${to.uri}#L${to.range.start.line + 1}`;
        links.push({ range: range(name.at), target, ...(title ? { tooltip: title } : {}) });
      }
    }
  }
  return links;
};
