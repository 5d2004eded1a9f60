/** What a recipe asks of the names around it, as texts: hundreds of recipes ask the same, and share the texts. */
import type { DeclarationKind } from "../model/declaration.ts";

/** Beyond so many names, which no library has, the texts are made anew: names come and go while somebody types. */
const mostNames = 20_000;

class Questions {
  private readonly texts = new Map<string, string>();

  constructor(private readonly make: (name: string) => string) {}

  about(name: string): string {
    let text = this.texts.get(name);
    if (text === undefined) {
      if (this.texts.size >= mostNames) this.texts.clear();
      text = this.make(name);
      this.texts.set(name, text);
    }
    return text;
  }
}

export const askedAny = new Questions((name) => `any ${name}`);
export const askedLots = new Questions((stock) => `lots ${stock}`);
const finds = new Map<DeclarationKind, Questions>();

export function askedFind(kind: DeclarationKind, name: string): string {
  let ofKind = finds.get(kind);
  if (!ofKind) {
    ofKind = new Questions((each) => `find ${each} ${kind}`);
    finds.set(kind, ofKind);
  }
  return ofKind.about(name);
}
