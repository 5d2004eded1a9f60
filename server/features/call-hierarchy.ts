/** Which recipes use this stock, drug or device; and what a recipe uses. */
import {
  type CallHierarchyIncomingCall,
  type CallHierarchyIncomingCallsParams,
  type CallHierarchyItem,
  type CallHierarchyOutgoingCall,
  type CallHierarchyOutgoingCallsParams,
  type CallHierarchyPrepareParams,
  SymbolKind,
} from "vscode-languageserver-protocol";
import { meantBy, occurrenceAt, occurrencesIn } from "../../language/answers/occurrences.ts";
import type { Library } from "../../language/library.ts";
import type { Declaration } from "../../language/model/declaration.ts";
import type { Answer, Serving } from "../serving.ts";
import { inPlace, locationOf } from "./at.ts";

export const prepareCallHierarchy: Answer<CallHierarchyPrepareParams, CallHierarchyItem[] | null> = (
  serving,
  params,
) => {
  const at = inPlace(serving, params);
  const name = at && occurrenceAt(at.library, at.key, at.offset);
  if (!at || !name) return null;
  const meant = name.recipe
    ? name.recipe.materials.filter((m) => m.name.name === name.name).flatMap((m) => at.library.declared(m.item.name))
    : meantBy(at.library, name);
  return meant.flatMap((d) => itemOf(serving, at.library, d) ?? []);
};

function itemOf(serving: Serving, library: Library, declaration: Declaration): CallHierarchyItem | undefined {
  const name = locationOf(serving, library, { ...declaration.name, chunk: declaration.chunk });
  const whole = locationOf(serving, library, { ...declaration.head, chunk: declaration.chunk });
  if (!name || !whole) return undefined;
  const kind = declaration.kind === "recipe" ? SymbolKind.Function : SymbolKind.Object;
  return {
    name: declaration.name.name,
    detail: declaration.kind,
    kind,
    uri: name.uri,
    range: whole.range,
    selectionRange: name.range,
  };
}

/** Found again by place and name: nothing that the editor keeps for the server is relied on. */
function declarationOf(
  serving: Serving,
  item: CallHierarchyItem,
): { library: Library; declaration: Declaration } | undefined {
  const library = serving.session.group(serving.host.keyOf(item.uri))?.library;
  const declaration = library?.declared(item.name).find((d) => item.detail === undefined || d.kind === item.detail);
  return library && declaration ? { library, declaration } : undefined;
}

export const incomingCalls: Answer<CallHierarchyIncomingCallsParams, CallHierarchyIncomingCall[] | null> = (
  serving,
  { item },
  token,
) => {
  const found = declarationOf(serving, item);
  if (!found) return null;
  const { library, declaration } = found;
  const calls: CallHierarchyIncomingCall[] = [];
  for (const kind of ["recipe", "stock", "drug", "lots"] as const) {
    for (const other of library.ofKind(kind)) {
      if (token.isCancellationRequested) return calls;
      const uses = occurrencesIn(other).filter(
        (o) => !o.recipe && !o.declares && o.name === declaration.name.name && o.kinds.includes(declaration.kind),
      );
      const from = uses.length > 0 ? itemOf(serving, library, other) : undefined;
      if (!from) continue;
      calls.push({ from, fromRanges: uses.flatMap((o) => locationOf(serving, library, o.at)?.range ?? []) });
    }
  }
  return calls;
};

export const outgoingCalls: Answer<CallHierarchyOutgoingCallsParams, CallHierarchyOutgoingCall[] | null> = (
  serving,
  { item },
) => {
  const found = declarationOf(serving, item);
  if (!found) return null;
  const { library, declaration } = found;
  const calls = new Map<Declaration, CallHierarchyOutgoingCall>();
  for (const use of occurrencesIn(declaration)) {
    if (use.recipe || use.declares) continue;
    const range = locationOf(serving, library, use.at)?.range;
    for (const meant of meantBy(library, use)) {
      const to = itemOf(serving, library, meant);
      if (!to || !range) continue;
      const known = calls.get(meant);
      if (known) known.fromRanges.push(range);
      else calls.set(meant, { to, fromRanges: [range] });
    }
  }
  return [...calls.values()];
};
