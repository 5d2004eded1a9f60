/** Answers questions and remembers them, so that it is known when an answer has changed. */
import type { Declaration, DeclarationKind } from "../model/declaration.ts";
import type { DeclarationOf, Lookup, LotOnShelf } from "../model/lookup.ts";
import type { Policy } from "../model/policy.ts";
import { mark, whole } from "./known.ts";
import type { NameIndex } from "./name-index.ts";

/** One for each judging of a chunk. */
export class Recorder implements Lookup {
  readonly looked = new Map<string, unknown>();
  /** Answers to `find` by name, for those who ask again and again. */
  private readonly found = new Map<string, Map<string, unknown>>();
  private readonly shelves = new Map<string, readonly LotOnShelf[]>();

  constructor(private readonly index: NameIndex) {}

  private note(question: string): void {
    if (!this.looked.has(question)) this.looked.set(question, this.index.value(question));
  }

  find<K extends keyof DeclarationOf>(kind: K, name: string): DeclarationOf[K] | undefined {
    let ofKind = this.found.get(kind);
    if (!ofKind) {
      ofKind = new Map();
      this.found.set(kind, ofKind);
    }
    const before = ofKind.get(name);
    if (before !== undefined || ofKind.has(name)) return before as DeclarationOf[K] | undefined;
    const known = this.index.first(name, kind);
    this.looked.set(`find ${name} ${kind}`, mark(known));
    const found = known && (whole(known) as DeclarationOf[K]);
    ofKind.set(name, found);
    return found;
  }

  any(name: string): Declaration | undefined {
    this.note(`any ${name}`);
    const known = this.index.first(name);
    return known && whole(known);
  }

  site() {
    this.note("site");
    return this.index.ofKind("site")[0] as DeclarationOf["site"] | undefined;
  }

  lots(stock: string): readonly LotOnShelf[] {
    if (!this.shelves.has(stock)) {
      this.note(`lots ${stock}`);
      this.shelves.set(stock, this.index.lots(stock));
    }
    return this.shelves.get(stock)!;
  }

  names(kind: DeclarationKind): readonly string[] {
    this.note(`names ${kind}`);
    return this.index.names(kind).list;
  }

  policy(): Policy {
    this.site();
    return this.index.policy();
  }
}

/** Whether every question that was asked has the same answer now. */
export function stillSame(looked: Map<string, unknown>, index: NameIndex): boolean {
  for (const [question, answer] of looked) if (index.value(question) !== answer) return false;
  return true;
}
