/** What a recipe asks of the names around it, as texts: hundreds of recipes ask the same, and share the texts. */
import type { DeclarationKind } from "../model/declaration.ts";
import { remembered } from "../quantities/remembered.ts";

/** Beyond so many names, which no library has, the texts are made anew: names come and go while somebody types. */
const mostNames = 20_000;

export const askedAny = remembered((name) => `any ${name}`, mostNames);
export const askedLots = remembered((stock) => `lots ${stock}`, mostNames);
/** Which names are declared more than once. */
export const askedTwice = "twice";
const secondOfAny = remembered((name) => `second ${name}`, mostNames);
const finds = new Map<DeclarationKind, (name: string) => string>();
const seconds = new Map<DeclarationKind, (name: string) => string>();

export function askedFind(kind: DeclarationKind, name: string): string {
  return ofKind(finds, "find", kind)(name);
}

export function askedSecond(name: string, kind: DeclarationKind | undefined): string {
  return kind === undefined ? secondOfAny(name) : ofKind(seconds, "second", kind)(name);
}

function ofKind(texts: Map<DeclarationKind, (name: string) => string>, what: string, kind: DeclarationKind) {
  let asked = texts.get(kind);
  if (!asked) {
    asked = remembered((name) => `${what} ${name} ${kind}`, mostNames);
    texts.set(kind, asked);
  }
  return asked;
}
