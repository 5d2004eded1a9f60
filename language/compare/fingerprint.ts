/**
 * The fingerprint that an approval is bound to: `misce-meaning-1` and the SHA-256 of the recipe's whole meaning.
 *
 * Algorithm `misce-meaning-1`, so that anybody can compute it again:
 * 1. Take the recipe, and every declaration that it rests on (whole-meaning.ts).
 * 2. Of each take kind, name, facts as [block, word, value] and steps as values. Quantities are lowest-terms ratios in base units with
 *    their dimension (`4/1 mass`); places, blanks, comments and spelling of units are gone. Facts are sorted as texts, steps keep
 *    their order. The site's fact `approvals` is left out: whether approvals are asked for changes no preparation.
 * 3. Write each as JSON with sorted keys and without blanks, and hash its UTF-8 bytes.
 * 4. Write [hash of the recipe, the other hashes sorted] as JSON in the same way, and hash that.
 *
 * Any change of this algorithm takes another name, so that an old approval is told from a stale one.
 */
import { sha256 } from "@noble/hashes/sha2.js";
import type { Library } from "../library.ts";
import type { Declaration, Recipe } from "../model/declaration.ts";
import { canonicalJson, type NameOf, type Plain, sameName } from "./canonical.ts";
import { meaningOf } from "./meaning.ts";
import { nameOf, restsOn } from "./whole-meaning.ts";

export const fingerprintAlgorithm = "misce-meaning-1";

/** `misce-meaning-1:` and 64 hexadecimal digits. */
export function fingerprintOf(recipe: Recipe, library: Library): string {
  const others = restsOn(recipe, library).map((r) => ownHash(r.declaration));
  const whole: Plain = [ownHash(recipe), others.sort()];
  return `${fingerprintAlgorithm}:${hashOf(whole)}`;
}

/** Fingerprints of all that a recipe rests on, each for itself: to tell later which of them changed, where no history is at hand. */
export function fingerprintsOfParts(recipe: Recipe, library: Library): { [name: string]: string } {
  const parts: { [name: string]: string[] } = {};
  const all: Declaration[] = [recipe, ...restsOn(recipe, library).map((r) => r.declaration)];
  for (const declaration of all) {
    const name = nameOf(declaration);
    parts[name] = [...(parts[name] ?? []), ownHash(declaration).slice(0, 32)].sort();
  }
  return Object.fromEntries(Object.entries(parts).map(([name, hashes]) => [name, hashes.join(" ")]));
}

const ownHashes = new WeakMap<Declaration, string>();

/** Hash of what a declaration itself says. */
export function ownHash(declaration: Declaration): string {
  let hash = ownHashes.get(declaration);
  if (hash === undefined) {
    hash = hashOf(plainMeaning(declaration));
    ownHashes.set(declaration, hash);
  }
  return hash;
}

/** A declaration as the algorithm sees it. */
export function plainMeaning(declaration: Declaration, name: NameOf = sameName): Plain {
  const { kind, facts, steps, ...meaning } = meaningOf(declaration, name);
  const counted = facts.filter((f) => !(kind === "site" && f.block === "" && f.word === "approvals"));
  return { kind, name: meaning.name, facts: counted.map((f) => f.key).sort(), steps: steps.map((s) => s.value) };
}

export function hashOf(value: Plain): string {
  const bytes = sha256(new TextEncoder().encode(canonicalJson(value)));
  return [...bytes].map((byte) => byte.toString(16).padStart(2, "0")).join("");
}
