/** Texts for reading, in the format that the editor takes. */
import { type MarkupContent, MarkupKind } from "vscode-languageserver-protocol";

export function markup(markdown: string, kind: MarkupKind): MarkupContent {
  return { kind, value: kind === MarkupKind.Markdown ? markdown : plain(markdown) };
}

/** The signs of Markdown taken out, the words left. */
function plain(markdown: string): string {
  return markdown
    .replace(/^```.*\n?/gm, "")
    .replace(/^#+ +/gm, "")
    .replace(/\[([^\]]*)\]\(([^)]*)\)/g, "$1 ($2)")
    .replace(/\*\*([^*]+)\*\*/g, "$1")
    .replace(/`([^`]*)`/g, "$1")
    .replace(/\\([\\`*_{}[\]()#+.!|<>~-])/g, "$1");
}
