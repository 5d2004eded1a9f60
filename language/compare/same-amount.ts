/** Amounts of one drug that two states count in units of different kinds: 20 mmol and 20 mEq of potassium are as much. */
import { orderedDrugs } from "../bench/stray-drugs.ts";
import type { Declaration, Drug } from "../model/declaration.ts";
import type { NameSlot } from "../model/slots.ts";
import { inBase, type Quantity } from "../quantities/quantity.ts";
import { isRefusal } from "../quantities/refusal.ts";
import { convert } from "../quantities/substance.ts";

/** The one declaration of this kind and name on one side; undefined where there is none or more than one. */
export type DeclaredAs = (
  side: "before" | "after",
  kind: "drug" | "stock" | "device",
  name: string,
) => Declaration | undefined;

/** A figure of one line, in the unit in which the other side states it; undefined where nothing says how much that is. */
export type InUnitOf = (before: Quantity, after: Quantity) => Quantity | undefined;

interface Line {
  declaration: Declaration;
  slots: object | undefined;
}

/**
 * Only where both sides speak of the same drug and the same ion, both monographs convert alike, and no salt or base is named: whatever
 * else changed with the unit must not be hidden by it.
 */
export function inUnitOf(before: Line, after: Line, declaredAs: DeclaredAs): InUnitOf {
  const [was, is] = [namesOf(before.slots), namesOf(after.slots)];
  const isPlain = !was.salt && !is.salt && was.ion === is.ion;
  const drugs = [drugOf(before, "before", declaredAs), drugOf(after, "after", declaredAs)];
  const [drugWas, drugIs] = drugs;
  if (!isPlain || !drugWas || !drugIs || drugWas.name.name !== drugIs.name.name) return () => undefined;
  return (one, other) => {
    const converted = [drugWas, drugIs].map((drug) => convert(one, other.unit, drug.substance, was.ion));
    const [first, second] = converted as [Quantity, Quantity];
    if (converted.some(isRefusal) || !inBase(first).equals(inBase(second))) return undefined;
    return first;
  };
}

type NamedSlots = { ion?: NameSlot; salt?: NameSlot; as?: NameSlot; drug?: NameSlot };

function namesOf(slots: object | undefined): { ion: string | undefined; salt: string | undefined } {
  const { ion, salt, as } = (slots ?? {}) as NamedSlots;
  return { ion: ion?.name, salt: (salt ?? as)?.name };
}

/** The drug that a line speaks of: its own, that of the declaration, or the only one that is ordered. */
function drugOf({ declaration, slots }: Line, side: "before" | "after", declaredAs: DeclaredAs): Drug | undefined {
  if (declaration.kind === "drug") return declaration;
  const named = (slots as NamedSlots | undefined)?.drug?.name;
  const of = (name: string | undefined) => (name === undefined ? undefined : declaredAs(side, "drug", name));
  const found = of(named ?? onlyDrug(declaration));
  return found?.kind === "drug" ? found : undefined;
}

function onlyDrug(declaration: Declaration): string | undefined {
  if (declaration.kind === "stock") return declaration.facts.one("drug")?.slots.drug.name;
  if (declaration.kind !== "recipe") return undefined;
  const [only, second] = orderedDrugs(declaration);
  return second === undefined ? only : undefined;
}
