/** From a request's place to the library and offset that the answers speak of. */
import type { Position, TextDocumentIdentifier } from "vscode-languageserver-protocol";
import type { Library } from "../../language/library.ts";
import type { Place } from "../../language/model/declaration.ts";
import type { Span } from "../../shared/finding.ts";
import type { Document } from "../document.ts";
import type { Serving } from "../serving.ts";
import type { Group } from "../session.ts";

export interface InFile {
  key: string;
  document: Document;
  group: Group;
  library: Library;
}

/** Undefined for a file that the session does not know. */
export function inFile(serving: Serving, { uri }: TextDocumentIdentifier): InFile | undefined {
  const key = serving.host.keyOf(uri);
  const document = serving.session.document(key);
  const group = serving.session.group(key);
  return document && group ? { key, document, group, library: group.library } : undefined;
}

export interface InPlace extends InFile {
  offset: number;
}

export function inPlace(
  serving: Serving,
  params: { textDocument: TextDocumentIdentifier; position: Position },
): InPlace | undefined {
  const file = inFile(serving, params.textDocument);
  return file && { ...file, offset: file.document.offset(params.position) };
}

/** A place of the library as a location, undefined for what is built in. */
export function locationOf(serving: Serving, library: Library, place: Place) {
  const span: Span | undefined = library.spanOf(place);
  return span && serving.session.locate(span);
}
