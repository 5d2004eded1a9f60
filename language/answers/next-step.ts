/**
 * The next likely step: what other recipes of the library do after steps like these, said with this recipe's own names. Where the
 * library has no recipe yet, the common order of work stands in.
 */
import type { Library } from "../library.ts";
import type { Material, Recipe, Step } from "../model/declaration.ts";
import type { Token } from "../syntax/tree.ts";
import { type Peer, Tally } from "./vocabulary.ts";

/** Common order of adding a drug to a bag, for a library's first recipe. Roles as in `rolesOf`. */
const fromVial: readonly string[] = [
  "check label and expiry of {vial drug 0} , {bag fluid 0}",
  "disinfect {vial drug 0}",
  "attach {needle 0} to {syringe 0}",
  "draw {dose} from {vial drug 0} into {syringe 0} at equal pressure",
  "expel air from {syringe 0}",
  "check by pharmacist",
];
const fromAmpoule: readonly string[] = [
  "check label and expiry of {ampoule drug 0} , {bag fluid 0}",
  "tap {ampoule drug 0}",
  "disinfect {ampoule drug 0}",
  "open {ampoule drug 0}",
  "attach {filter-needle 0} to {syringe 0}",
  "draw {dose} from {ampoule drug 0} into {syringe 0}",
  "expel air from {syringe 0}",
  "replace {filter-needle 0} on {syringe 0} with {needle 0}",
  "check by pharmacist",
];
const intoBag: readonly string[] = [
  "disinfect {bag fluid 0}",
  "inject {syringe 0} into {bag fluid 0}",
  "mix {bag fluid 0} by inverting 10 times",
  "inspect {bag fluid 0}",
  "seal {bag fluid 0}",
  "label {bag fluid 0}",
  "check by pharmacist",
];

/** Lines for the step after `done` steps, likeliest first. */
export function nextSteps(library: Library, recipe: Recipe, done: number, peers: readonly Peer[]): string[] {
  const roles = rolesOf(library, recipe);
  const before = recipe.steps.slice(0, done).map((s) => generalized(s, recipe, roles));
  const tallies = [new Tally(), new Tally(), new Tally(), new Tally()];
  const learn = (lines: readonly string[], weight: number) => {
    for (let i = 0; i < lines.length; i++) {
      let same = 0;
      while (same < 3 && (lines[i - 1 - same] ?? "start") === (before[done - 1 - same] ?? "start")) {
        same++;
        if (i - same < 0) break;
      }
      tallies[same]!.add(lines[i]!, weight);
    }
  };
  for (const { declaration, weight } of peers) {
    if (declaration.kind === "recipe") learn(generalSteps(library, declaration), weight);
  }
  learn([...fromVial, ...intoBag], 0.5);
  learn([...fromAmpoule, ...intoBag], 0.5);
  const names = new Map([...roles].map(([name, role]) => [role, name]));
  const found = new Set<string>();
  const all = new Set(before);
  for (const tally of tallies.slice(1).reverse()) {
    for (const { text } of tally.best(8)) {
      const line = instantiated(text, recipe, names);
      if (line !== undefined && !(all.has(text) && /^(check label|tap|open)/.test(text))) found.add(line);
    }
  }
  return [...found].slice(0, 8);
}

const kept = new WeakMap<Recipe, readonly string[]>();

function generalSteps(library: Library, recipe: Recipe): readonly string[] {
  let lines = kept.get(recipe);
  if (!lines) {
    const roles = rolesOf(library, recipe);
    lines = recipe.steps.map((step) => generalized(step, recipe, roles));
    kept.set(recipe, lines);
  }
  return lines;
}

/** Name of each material → what it is for, such as `{vial drug 0}`: the first vial with a drug. */
function rolesOf(library: Library, recipe: Recipe): Map<string, string> {
  const counts = new Map<string, number>();
  const roles = new Map<string, string>();
  for (const material of recipe.materials) {
    if (roles.has(material.name.name)) continue;
    const what = kindOf(library, material);
    const count = counts.get(what) ?? 0;
    counts.set(what, count + 1);
    roles.set(material.name.name, `{${what} ${count}}`);
  }
  return roles;
}

function kindOf(library: Library, material: Material): string {
  for (const item of library.declared(material.item.name)) {
    if (item.kind === "device") return item.facts.one("kind")?.slots.kind.choice ?? "device";
    if (item.kind !== "stock") continue;
    const container = item.facts.one("container")?.slots.kind.choice ?? "container";
    return `${container} ${item.facts.one("drug") ? "drug" : "fluid"}`;
  }
  return "thing";
}

/** A step with its names as roles and the ordered dose as `{dose}`; claims are left out, since they are worked out anew. */
function generalized(step: Step, recipe: Recipe, roles: ReadonlyMap<string, string>): string {
  const dose = recipe.order?.one("dose")?.slots.dose.written;
  const words: string[] = [];
  const tokens = withoutClaims(step.tokens);
  for (let i = 0; i < tokens.length; i++) {
    const token = tokens[i]!;
    const unit = tokens[i + 1];
    if (token.kind === "number" && unit?.kind === "unit" && `${token.text} ${unit.text}` === dose) {
      words.push("{dose}");
      i++;
    } else words.push(token.kind === "word" && i > 0 ? (roles.get(token.text) ?? token.text) : token.text);
  }
  return words.join(" ");
}

function withoutClaims(tokens: readonly Token[]): readonly Token[] {
  const cut = tokens.findIndex((t) => t.kind === "equals" || t.text === "giving" || t.text === "leaving");
  return cut < 0 ? tokens : tokens.slice(0, cut);
}

function instantiated(text: string, recipe: Recipe, names: ReadonlyMap<string, string>): string | undefined {
  const dose = recipe.order?.one("dose")?.slots.dose.written;
  let missing = false;
  const line = text.replace(/\{[^}]+\}/g, (role) => {
    const name = role === "{dose}" ? dose : names.get(role);
    if (name === undefined) missing = true;
    return name ?? "";
  });
  return missing ? undefined : line.replace(/ ,/g, ",");
}
