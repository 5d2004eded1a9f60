/** Definition, references and highlights of names. */
import {
  type DefinitionParams,
  type DocumentHighlight,
  DocumentHighlightKind,
  type DocumentHighlightParams,
  type Location,
  type ReferenceParams,
} from "vscode-languageserver-protocol";
import { meantBy, occurrenceAt, sameName } from "../../language/answers/occurrences.ts";
import type { Answer } from "../serving.ts";
import { inPlace, locationOf } from "./at.ts";

export const definition: Answer<DefinitionParams, Location[] | null> = (serving, params) => {
  const at = inPlace(serving, params);
  const name = at && occurrenceAt(at.library, at.key, at.offset);
  if (!at || !name) return null;
  const places = name.recipe
    ? sameName(at.library, name)
        .filter((o) => o.declares)
        .map((o) => o.at)
    : meantBy(at.library, name).map((d) => ({ start: d.name.start, end: d.name.end, chunk: d.chunk }));
  return places.flatMap((place) => locationOf(serving, at.library, place) ?? []);
};

/** From a material on to the stock or device behind it; from any other name to its declaration. */
export const typeDefinition: Answer<DefinitionParams, Location[] | null> = (serving, params) => {
  const at = inPlace(serving, params);
  const name = at && occurrenceAt(at.library, at.key, at.offset);
  if (!at || !name) return null;
  const items = name.recipe
    ? name.recipe.materials.filter((m) => m.name.name === name.name).map((m) => m.item.name)
    : [name.name];
  const meant = items.flatMap((item) => at.library.declared(item));
  return meant.flatMap((d) => locationOf(serving, at.library, { ...d.name, chunk: d.chunk }) ?? []);
};

export const references: Answer<ReferenceParams, Location[] | null> = (serving, params) => {
  const at = inPlace(serving, params);
  const name = at && occurrenceAt(at.library, at.key, at.offset);
  if (!at || !name) return null;
  return sameName(at.library, name)
    .filter((o) => (params.context?.includeDeclaration ?? true) || !o.declares)
    .flatMap((o) => locationOf(serving, at.library, o.at) ?? []);
};

export const highlights: Answer<DocumentHighlightParams, DocumentHighlight[] | null> = (serving, params) => {
  const at = inPlace(serving, params);
  const name = at && occurrenceAt(at.library, at.key, at.offset);
  if (!at || !name) return null;
  return sameName(at.library, name).flatMap((o) => {
    const span = at.library.spanOf(o.at);
    if (span?.file !== at.key) return [];
    return [
      { range: at.document.range(span), kind: o.declares ? DocumentHighlightKind.Write : DocumentHighlightKind.Read },
    ];
  });
};
