/** The library names that a declaration uses, each with the kinds that fit there. Steps name materials, which are not library names. */
import { planOf } from "../bench/plan.ts";
import type { Declaration, DeclarationKind } from "../model/declaration.ts";
import type { Fact, Facts } from "../model/facts.ts";
import type { NameSlot } from "../model/slots.ts";

export interface NameUse {
  name: NameSlot;
  kinds: readonly DeclarationKind[];
  /** May as well name what a fluid or a product brings, such as sodium, which no library declares. */
  isOrContained?: true;
}

const drug: readonly DeclarationKind[] = ["drug"];
const fluid: readonly DeclarationKind[] = ["fluid"];
const stock: readonly DeclarationKind[] = ["stock"];
const mixable: readonly DeclarationKind[] = ["fluid", "drug"];

interface Use {
  slot: string;
  kinds: readonly DeclarationKind[];
  isOrContained?: true;
}

const drugOrContained = { kinds: drug, isOrContained: true } as const;

/** Which slot of which fact is a library name. */
const uses: Readonly<Record<string, Use>> = {
  "drug compatible": { slot: "what", kinds: mixable },
  "drug incompatible": { slot: "what", kinds: mixable },
  "drug added-before": { slot: "drug", kinds: drug },
  "drug confused": { slot: "drug", kinds: drug },
  "drug never-stored": { slot: "fluid", kinds: fluid },
  "stock drug": { slot: "drug", kinds: drug },
  "stock fluid": { slot: "fluid", kinds: fluid },
  "stock looks-like": { slot: "stock", kinds: stock },
  "reconstitute with": { slot: "fluid", kinds: fluid },
  "stable in": { slot: "fluid", kinds: fluid },
  "order drug": { slot: "drug", kinds: drug },
  "order additive": { slot: "drug", kinds: drug },
  "order diluent": { slot: "fluid", kinds: fluid },
  "order dose": { slot: "bands", kinds: ["bands"] },
  "fluid contains": { slot: "what", ...drugOrContained },
  "stock contains": { slot: "what", ...drugOrContained },
  "intermediate at": { slot: "drug", ...drugOrContained },
  "preparation concentration": { slot: "drug", ...drugOrContained },
  "preparation nominal-concentration": { slot: "drug", ...drugOrContained },
};

/** Kinds of declaration whose names fit a slot of a fact; undefined where the slot is no library name. */
export function kindsFitting(block: string, word: string, slot: string): readonly DeclarationKind[] | undefined {
  const use = uses[`${block} ${word}`];
  return use?.slot === slot && !use.isOrContained ? use.kinds : undefined;
}

export function namesUsed(declaration: Declaration): NameUse[] {
  const found: NameUse[] = [];
  // biome-ignore lint/suspicious/noExplicitAny: facts of every table are walked alike
  const walk = (block: string, facts: Facts<any> | undefined) => {
    for (const fact of facts?.every() ?? []) collect(block, fact, found);
  };
  walk(declaration.kind, declaration.facts);
  switch (declaration.kind) {
    case "drug":
      for (const row of declaration.stable) walk("stable", row);
      break;
    case "stock":
      walk("reconstitute", declaration.reconstitute);
      break;
    case "lots":
      found.push({ name: declaration.name, kinds: stock });
      break;
    case "recipe":
      walk("order", declaration.order);
      for (const material of declaration.materials) found.push({ name: material.item, kinds: ["stock", "device"] });
      for (const preparation of declaration.preparations) walk("preparation", preparation.facts);
      for (const intermediate of declaration.intermediates) walk("intermediate", intermediate.facts);
      for (const sample of declaration.examples) walk("example", sample.facts);
      for (const { slots, claims } of planOf(declaration).steps) {
        for (const named of [(slots as { drug?: NameSlot }).drug, ...claims.map((claim) => claim.drug)])
          if (named) found.push({ name: named, kinds: drug });
      }
      break;
  }
  return found;
}

function collect(block: string, fact: Fact, found: NameUse[]): void {
  const use = uses[`${block} ${fact.word}`];
  const name = use ? (fact.slots as Record<string, NameSlot | undefined>)[use.slot] : undefined;
  if (use && name && name.name !== "any")
    found.push({ name, kinds: use.kinds, ...(use.isOrContained && { isOrContained: true }) });
  const reference = fact.source?.reference;
  // A block's own source speaks for all its facts; it is looked at once, where it stands.
  if (reference && (fact.word === "source" || (reference.start >= fact.start && reference.end <= fact.end))) {
    found.push({ name: reference, kinds: ["reference"] });
  }
}
