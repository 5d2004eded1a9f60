/** Names of the whole library at one moment. */
import { builtInDevices } from "../model/built-in-devices.ts";
import { isDateFault, parseExpiry } from "../model/dates.ts";
import type { Declaration, DeclarationKind } from "../model/declaration.ts";
import type { InventoryFile } from "../model/inventory-file.ts";
import type { LotOnShelf } from "../model/lookup.ts";
import { type Policy, policyOf } from "../model/policy.ts";
import type { FileChunk, FileEntry } from "./file-chunk.ts";
import { type Known, KnownByName, knownIn, mark, whole } from "./known.ts";
import { askedTwice } from "./questions.ts";

let nextKey = 1;

/** One is made anew when what others can see has changed; answers to `value` are compared between two of them. */
export class NameIndex {
  readonly key = nextKey++;
  readonly byName = new Map<string, Known[]>();
  readonly byKind = new Map<DeclarationKind, Known[]>();
  private readonly lotsByStock = new Map<string, Known[]>();
  private readonly exported = new Map<string, LotOnShelf[]>();
  private readonly namesByKind = new Map<DeclarationKind, { list: readonly string[]; joined: string }>();
  private readonly shelves = new Map<string, { lots: readonly LotOnShelf[]; joined: string }>();
  private twice: { names: ReadonlySet<string>; joined: string } | undefined;
  private sitePolicy: Policy | undefined;
  /** Answers by question: after a change of something shared, hundreds of recipes are asked whether they would hear the same. */
  private readonly answers = new Map<string, unknown>();

  constructor(entries: readonly FileEntry[], inventories: readonly InventoryFile[], year: number) {
    for (const chunk of builtInDevices()) this.add(new KnownByName(chunk.lone.kind, chunk.lone.name, chunk));
    for (const entry of entries) {
      for (const chunk of entry.chunks) {
        for (const known of knownIn(chunk)) this.add(known);
      }
    }
    for (const each of inventories) for (const lot of each.lots(year, this.policy().monthOnly)) this.put(lot);
  }

  private add(declaration: Known): void {
    const kind = this.byKind.get(declaration.kind);
    if (kind) kind.push(declaration);
    else this.byKind.set(declaration.kind, [declaration]);
    if (declaration.kind === "site") return;
    const names = declaration.kind === "lots" ? this.lotsByStock : this.byName;
    const same = names.get(declaration.name.name);
    if (same) same.push(declaration);
    else names.set(declaration.name.name, [declaration]);
  }

  /**
   * Takes chunks in the place of others where nobody outside can tell the difference: recipes under the same names, each name
   * declared once. Recipes are looked up by nobody; only their names are.
   * @returns false, with nothing changed, where somebody could
   */
  replaceUnseen(removed: readonly FileChunk[], added: readonly FileChunk[], shifted: readonly FileChunk[]): boolean {
    const before = removed.flatMap(knownIn);
    const after = added.flatMap(knownIn);
    if (before.length !== after.length) return false;
    const isUnseen = ({ kind, name: { name } }: Known) => kind === "recipe" && this.byName.get(name)?.length === 1;
    if (!before.every(isUnseen) || !after.every(isUnseen)) return false;
    if (!shifted.every((c) => knownIn(c).every(isUnseen))) return false;
    const names = new Set(before.map((d) => d.name.name));
    if (names.size !== after.length || !after.every((d) => names.delete(d.name.name))) return false;
    this.answers.clear();
    const recipes = this.byKind.get("recipe")!;
    for (const known of after) {
      const name = known.name.name;
      recipes[recipes.indexOf(this.byName.get(name)![0]!)] = known;
      this.byName.set(name, [known]);
    }
    return true;
  }

  private declaredLots(stock: string): LotOnShelf[] {
    return (this.lotsByStock.get(stock) ?? []).flatMap((known) => {
      const lots = whole(known) as Declaration & { kind: "lots" };
      return lots.facts.all("lot").map((row) => {
        const read = parseExpiry(row.slots.expires.text, this.policy().monthOnly);
        const expires = isDateFault(read) ? undefined : read;
        const place = { chunk: lots.chunk, start: row.start, end: row.end };
        return { stock, lot: row.slots.lot.text, expires, place, inventory: undefined };
      });
    });
  }

  private put(lot: LotOnShelf): void {
    const shelf = this.exported.get(lot.stock);
    if (shelf) shelf.push(lot);
    else this.exported.set(lot.stock, [lot]);
  }

  named(name: string): readonly Declaration[] {
    return (this.byName.get(name) ?? []).map(whole);
  }

  ofKind(kind: DeclarationKind): readonly Declaration[] {
    return (this.byKind.get(kind) ?? []).map(whole);
  }

  value(question: string): unknown {
    const before = this.answers.get(question);
    if (before !== undefined || this.answers.has(question)) return before;
    const answer = this.worked(question);
    this.answers.set(question, answer);
    return answer;
  }

  private worked(question: string): unknown {
    const [what, name, kind] = question.split(" ", 3) as [string, string, string];
    switch (what) {
      case "find":
        return mark(this.first(name, kind as DeclarationKind));
      case "any":
        return mark(this.first(name));
      case "second":
        return mark(this.second(name, kind as DeclarationKind | undefined));
      case askedTwice:
        return this.declaredTwice().joined;
      case "site":
        return mark(this.byKind.get("site")?.[0]);
      case "lots":
        return this.shelf(name).joined;
      default:
        return this.names(name as DeclarationKind).joined;
    }
  }

  /** The first of this name; with a kind, the first of that kind. */
  first(name: string, kind?: DeclarationKind): Known | undefined {
    const all = this.byName.get(name);
    return kind === undefined ? all?.[0] : all?.find((known) => known.kind === kind);
  }

  /** The next after the first. */
  second(name: string, kind?: DeclarationKind): Known | undefined {
    const all = this.byName.get(name);
    if (all === undefined || all.length < 2) return undefined;
    return kind === undefined ? all[1] : all.filter((known) => known.kind === kind)[1];
  }

  /** Names of more than one declaration. They never change within an index either. */
  declaredTwice(): { names: ReadonlySet<string>; joined: string } {
    if (!this.twice) {
      const names = [...this.byName].flatMap(([name, known]) => (known.length > 1 ? [name] : []));
      this.twice = { names: new Set(names), joined: names.join("\n") };
    }
    return this.twice;
  }

  /** Names never change within an index: a chunk that takes another's place bears the same. */
  names(kind: DeclarationKind): { list: readonly string[]; joined: string } {
    let names = this.namesByKind.get(kind);
    if (!names) {
      const list = (this.byKind.get(kind) ?? []).map((d) => d.name.name);
      names = { list, joined: list.join("\n") };
      this.namesByKind.set(kind, names);
    }
    return names;
  }

  /** The lots of a stock, and all that is said of them as one text to compare. */
  shelf(stock: string): { lots: readonly LotOnShelf[]; joined: string } {
    let shelf = this.shelves.get(stock);
    if (!shelf) {
      const lots = [...this.declaredLots(stock), ...(this.exported.get(stock) ?? [])];
      shelf = { lots, joined: lots.map(lotLine).join("\n") };
      this.shelves.set(stock, shelf);
    }
    return shelf;
  }

  policy(): Policy {
    this.sitePolicy ??= policyOf(this.byKind.get("site")?.[0] as Declaration & { kind: "site" });
    return this.sitePolicy;
  }
}

/** A lot with the place of its line, which findings point at. */
function lotLine({ lot, expires, place, inventory }: LotOnShelf): string {
  const at = place
    ? `${(place.chunk as FileChunk).id} ${place.start}`
    : `${inventory?.file} ${inventory?.start} ${inventory?.end}`;
  return `${lot}\n${expires?.text}\n${at}`;
}
