/** Answers questions and remembers them, so that it is known when an answer has changed. */
import type { Declaration, DeclarationKind } from "../model/declaration.ts";
import type { DeclarationOf, Lookup, LotOnShelf } from "../model/lookup.ts";
import type { Policy } from "../model/policy.ts";
import { mark, whole } from "./known.ts";
import type { NameIndex } from "./name-index.ts";
import { askedAny, askedFind, askedLots, askedSecond, askedTwice } from "./questions.ts";

/** One for each judging of a chunk. */
export class Recorder implements Lookup {
  readonly looked = new Map<string, unknown>();
  /** Answers to `find` by name, for those who ask again and again. */
  private readonly found = new Map<string, Map<string, unknown>>();
  private readonly shelves = new Map<string, readonly LotOnShelf[]>();
  private readonly listed = new Map<DeclarationKind, readonly string[]>();

  constructor(private readonly index: NameIndex) {}

  find<K extends keyof DeclarationOf>(kind: K, name: string): DeclarationOf[K] | undefined {
    let ofKind = this.found.get(kind);
    if (!ofKind) {
      ofKind = new Map();
      this.found.set(kind, ofKind);
    }
    const before = ofKind.get(name);
    if (before !== undefined || ofKind.has(name)) return before as DeclarationOf[K] | undefined;
    const known = this.index.first(name, kind);
    this.looked.set(askedFind(kind, name), mark(known));
    const found = known && (whole(known) as DeclarationOf[K]);
    ofKind.set(name, found);
    return found;
  }

  any(name: string): Declaration | undefined {
    const known = this.index.first(name);
    this.looked.set(askedAny(name), mark(known));
    return known && whole(known);
  }

  second(name: string, kind?: DeclarationKind): Declaration | undefined {
    // One question for all names: in most libraries none is declared twice, and hundreds of recipes ask after a dozen names each.
    if (!this.namesTwice().has(name)) return undefined;
    const known = this.index.second(name, kind);
    this.looked.set(askedSecond(name, kind), mark(known));
    return known && whole(known);
  }

  namesTwice(): ReadonlySet<string> {
    const { names, joined } = this.index.declaredTwice();
    this.looked.set(askedTwice, joined);
    return names;
  }

  site() {
    const known = this.index.byKind.get("site")?.[0];
    this.looked.set("site", mark(known));
    return known && (whole(known) as DeclarationOf["site"]);
  }

  lots(stock: string): readonly LotOnShelf[] {
    let shelf = this.shelves.get(stock);
    if (!shelf) {
      const found = this.index.shelf(stock);
      this.looked.set(askedLots(stock), found.joined);
      shelf = found.lots;
      this.shelves.set(stock, shelf);
    }
    return shelf;
  }

  names(kind: DeclarationKind): readonly string[] {
    let list = this.listed.get(kind);
    if (!list) {
      const found = this.index.names(kind);
      this.looked.set(`names ${kind}`, found.joined);
      list = found.list;
      this.listed.set(kind, list);
    }
    return list;
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
