/**
 * Declarations understood, one type a kind. Every name and figure keeps its place (offsets in its chunk). Reading never
 * throws: what does not fit becomes a problem, the rest is used.
 */
import type { Substance } from "../quantities/substance.ts";
import type { Block, Token, Tree } from "../syntax/tree.ts";
import type { drugFacts, fluidFacts, stableFacts } from "./declarations/drug.ts";
import type {
  exampleFacts,
  intermediateFacts,
  labelTextFacts,
  orderFacts,
  preparationFacts,
  recipeFacts,
} from "./declarations/recipe.ts";
import type { siteFacts } from "./declarations/site.ts";
import type {
  bandsFacts,
  deviceFacts,
  lotsFacts,
  reconstituteFacts,
  referenceFacts,
  stockFacts,
} from "./declarations/stock.ts";
import type { Facts, FactTable, Problem } from "./facts.ts";
import type { ConditionSlot, DateSlot, NameSlot, NumberSlot, Spot, TextSlot } from "./slots.ts";

/** A top-level stretch of a file; unit of re-reading after an edit. Compared by identity: an unedited chunk stays the same object. */
export interface Chunk {
  readonly text: string;
  /** File in which it stands; undefined for a text of its own. */
  readonly file?: string;
}

/** A stretch of a chunk. */
export interface Place extends Spot {
  chunk: Chunk;
}

interface Declared<K extends string, T extends FactTable> {
  kind: K;
  /** Name as written; a site has none. */
  name: NameSlot;
  chunk: Chunk;
  /** The head line without its brace. */
  head: Spot;
  facts: Facts<T>;
}

export type Site = Declared<"site", typeof siteFacts>;
export interface Drug extends Declared<"drug", typeof drugFacts> {
  stable: Facts<typeof stableFacts>[];
  /** What conversions need: molar mass, ions, salts, density. */
  substance: Substance;
}
export type Fluid = Declared<"fluid", typeof fluidFacts>;
export interface Stock extends Declared<"stock", typeof stockFacts> {
  reconstitute: Facts<typeof reconstituteFacts> | undefined;
}
export type Lots = Declared<"lots", typeof lotsFacts>;
export type Reference = Declared<"reference", typeof referenceFacts>;
export type Bands = Declared<"bands", typeof bandsFacts>;
export type Device = Declared<"device", typeof deviceFacts>;

export interface Material extends Spot {
  name: NameSlot;
  count: NumberSlot | undefined;
  /** A stock or device of the library. */
  item: NameSlot;
  when: ConditionSlot | undefined;
}

/** One line of `steps`, not yet matched to its verb. */
export interface Step extends Spot {
  /** Number printed on the sheet, from 1. */
  number: number;
  tokens: Token[];
  /** Conditions of the `only when` blocks around it, outermost first. */
  only: ConditionSlot[];
}

export interface Named<T extends FactTable> extends Spot {
  name: NameSlot;
  facts: Facts<T>;
}

export interface Example extends Spot {
  title: TextSlot | undefined;
  facts: Facts<typeof exampleFacts>;
}

export interface Deviation extends Spot {
  check: NameSlot;
  on: NameSlot | undefined;
  because: TextSlot | undefined;
  by: NameSlot | undefined;
  until: DateSlot | undefined;
}

export interface Recipe extends Declared<"recipe", typeof recipeFacts> {
  order: Facts<typeof orderFacts> | undefined;
  materials: Material[];
  materialsSpot: Spot | undefined;
  steps: Step[];
  stepsSpot: Spot | undefined;
  preparations: Named<typeof preparationFacts>[];
  intermediates: Named<typeof intermediateFacts>[];
  labelText: Facts<typeof labelTextFacts> | undefined;
  examples: Example[];
  deviations: Deviation[];
}

export type Declaration = Site | Drug | Fluid | Stock | Lots | Reference | Bands | Device | Recipe;
export type DeclarationKind = Declaration["kind"];

/** What reading one chunk gives. */
export interface ChunkReading {
  tree: Tree;
  declarations: Declaration[];
  problems: Problem[];
  blocks: Block[];
}
