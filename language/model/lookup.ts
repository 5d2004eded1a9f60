/**
 * How declarations find each other: one namespace a library. Everything that understanding a recipe needs from elsewhere
 * goes through here, so that what it depended on is known and it is read again when just that changes.
 */

import type { Expiry } from "./dates.ts";
import type {
  Bands,
  Declaration,
  DeclarationKind,
  Device,
  Drug,
  Fluid,
  Place,
  Reference,
  Site,
  Stock,
} from "./declaration.ts";

export interface LotOnShelf {
  stock: string;
  lot: string;
  /** Undefined where the date cannot be read; a finding stands at its place. */
  expires: Expiry | undefined;
  /** Place of the lot's line, in a lots block or an inventory export. */
  place: Place | undefined;
  /** Inventory file and line for lots that come from an export. */
  inventory: { file: string; start: number; end: number } | undefined;
}

export interface DeclarationOf {
  site: Site;
  drug: Drug;
  fluid: Fluid;
  stock: Stock;
  device: Device;
  reference: Reference;
  bands: Bands;
}

export interface Lookup {
  /** The one declaration of this kind and name; undefined when there is none. Of several with one name, the first. */
  find<K extends keyof DeclarationOf>(kind: K, name: string): DeclarationOf[K] | undefined;
  /** Any declaration of this name that is not lots. */
  any(name: string): Declaration | undefined;
  /** What is declared under this name (lots apart) after the first; with a kind, after the first of that kind. */
  second(name: string, kind?: keyof DeclarationOf): Declaration | undefined;
  /** All names (lots apart) of more than one declaration. In most libraries there is none. */
  namesTwice(): ReadonlySet<string>;
  /** The library's site, undefined for a file outside a library. */
  site(): Site | undefined;
  lots(stock: string): readonly LotOnShelf[];
  /** All names of a kind, for near names and completion. */
  names(kind: DeclarationKind): readonly string[];
}
