/** What a recipe asks of the names around it, as texts: hundreds of recipes ask the same, and share the texts. */
import type { DeclarationKind } from "../model/declaration.ts";
import { remembered } from "../quantities/remembered.ts";

/** Beyond so many names, which no library has, the texts are made anew: names come and go while somebody types. */
const mostNames = 20_000;

export const askedAny = remembered((name) => `any ${name}`, mostNames);
export const askedLots = remembered((stock) => `lots ${stock}`, mostNames);
const finds = new Map<DeclarationKind, (name: string) => string>();

export function askedFind(kind: DeclarationKind, name: string): string {
  let ofKind = finds.get(kind);
  if (!ofKind) {
    ofKind = remembered((each) => `find ${each} ${kind}`, mostNames);
    finds.set(kind, ofKind);
  }
  return ofKind(name);
}
