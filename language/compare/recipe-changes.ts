/**
 * What changed for one recipe between two states of its library, fact by fact: in it, or in what it rests on. As the comparison of the
 * whole library tells it (tested), and only what bears on this recipe is judged, because it is asked while somebody writes.
 */
import type { DeclarationChange } from "../../shared/comparison.ts";
import type { Library } from "../library.ts";
import { byLevel } from "./compare.ts";
import { factLine } from "./comparison-words.ts";
import { DeclarationChanges } from "./declaration-changes.ts";

/** One line a fact; empty where nothing differs. */
export function changesOfRecipe(before: Library, after: Library, name: string): string[] {
  const changes = new DeclarationChanges(before, after, name);
  const answers = (isWanted: (key: string) => boolean) =>
    changes.tasks.flatMap((task, number) =>
      isWanted(keyOf(task.how === "pair" ? task.pair.after : task.head)) ? changes.answer(number).changes : [],
    );
  const own = answers((key) => key === `recipe ${name}`).find((d) => d.name === name);
  // An approval is of the recipe, whatever stands on the shelf.
  const ways = own?.reachedThrough.filter((r) => !r.declaration.startsWith("lots ")) ?? [];
  const reached = new Set(ways.map((r) => r.declaration));
  const others = reached.size === 0 ? [] : answers((key) => reached.has(key)).sort(byLevel);
  return [...(own?.facts.map(factLine) ?? []), ...others.flatMap(linesOf)];
}

function linesOf(d: DeclarationChange): string[] {
  if (d.how === "added" || d.how === "removed")
    return [`${keyOf(d)} ${d.how === "added" ? "is new" : "was taken out"}`];
  // What the fingerprint leaves out made no approval stale.
  const counted = d.facts.filter((f) => d.kind !== "site" || !/^approvals /.test(f.after || f.before));
  return counted.map((fact) => `${keyOf(d)}: ${factLine(fact)}`);
}

function keyOf({ kind, name }: { kind: string; name: string }): string {
  return kind === "site" ? "site" : `${kind} ${name}`;
}
