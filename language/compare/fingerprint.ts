/**
 * The fingerprint that an approval is bound to: `misce-meaning-2` and the SHA-256 of the recipe's whole meaning.
 *
 * Algorithm `misce-meaning-2`, so that anybody can compute it again:
 * 1. Take the recipe, and every declaration that it rests on (whole-meaning.ts).
 * 2. Of each take kind, name, facts as [block, word, value] and steps as values. Quantities are lowest-terms ratios in base units with
 *    their dimension (`4/1 mass`); places, blanks, comments and spelling of units are gone. Facts are sorted as texts, steps keep
 *    their order. Of the site the facts `approvals` and `role` are left out, because they change neither preparation nor sheet; in the
 *    place of the roles stand, sorted, those that the recipe itself names (who checks a step, who signs a deviation).
 * 3. Write each as JSON with sorted keys and without blanks, and hash its UTF-8 bytes.
 * 4. Write [hash of the recipe, the other hashes sorted] as JSON in the same way, and hash that.
 *
 * Algorithm `misce-meaning-1`, of earlier approvals, counted all roles of the site. It is kept, so that an approval under it
 * is held against the meaning in its own way.
 *
 * Any change of an algorithm takes another name, so that an old approval is told from a stale one.
 */
import { sha256 } from "@noble/hashes/sha2.js";
import type { Library } from "../library.ts";
import type { Declaration, Recipe } from "../model/declaration.ts";
import { canonicalJson, type NameOf, type Plain, sameName } from "./canonical.ts";
import { meaningOf } from "./meaning.ts";
import { nameOf, restsOn } from "./whole-meaning.ts";

export const fingerprintAlgorithm = "misce-meaning-2";
const earlierAlgorithm = "misce-meaning-1";
export type FingerprintAlgorithm = typeof fingerprintAlgorithm | typeof earlierAlgorithm;

/** The algorithm that a fingerprint names; undefined for one that this program does not know. */
export function algorithmOf(fingerprint: string): FingerprintAlgorithm | undefined {
  const [name] = fingerprint.split(":");
  return name === fingerprintAlgorithm || name === earlierAlgorithm ? name : undefined;
}

/** The algorithm's name, a colon and 64 hexadecimal digits. */
export function fingerprintOf(
  recipe: Recipe,
  library: Library,
  algorithm: FingerprintAlgorithm = fingerprintAlgorithm,
): string {
  const others = restsOn(recipe, library).map((r) => countedHash(r.declaration, recipe, library, algorithm));
  const whole: Plain = [ownHash(recipe), others.sort()];
  return `${algorithm}:${hashOf(whole)}`;
}

/** Whether a fingerprint, under the algorithm that it names, is that of the recipe's meaning now. */
export function isFingerprintOf(fingerprint: string, recipe: Recipe, library: Library): boolean {
  const algorithm = algorithmOf(fingerprint);
  return algorithm !== undefined && fingerprint === fingerprintOf(recipe, library, algorithm);
}

/** Fingerprints of all that a recipe rests on, each for itself: to tell later which of them changed, where no history is at hand. */
export function fingerprintsOfParts(
  recipe: Recipe,
  library: Library,
  algorithm: FingerprintAlgorithm = fingerprintAlgorithm,
): { [name: string]: string } {
  const parts: { [name: string]: string[] } = {};
  const all: Declaration[] = [recipe, ...restsOn(recipe, library).map((r) => r.declaration)];
  for (const declaration of all) {
    const name = nameOf(declaration);
    const hash = countedHash(declaration, recipe, library, algorithm).slice(0, 32);
    parts[name] = [...(parts[name] ?? []), hash].sort();
  }
  return Object.fromEntries(Object.entries(parts).map(([name, hashes]) => [name, hashes.join(" ")]));
}

/** Hash of what a declaration says for this recipe: all of it, but of the site only what can bear on its preparation or sheet. */
export function countedHash(
  declaration: Declaration,
  recipe: Recipe,
  library: Library,
  algorithm: FingerprintAlgorithm = fingerprintAlgorithm,
): string {
  if (declaration.kind !== "site" || algorithm === earlierAlgorithm) return ownHash(declaration);
  const { kind, name } = meaningOf(declaration);
  return hashOf({ kind, name, facts: siteFacts(declaration), roles: rolesNamed(recipe, library) });
}

/** What the site says for every recipe alike. */
export function siteFactsHash(library: Library): string {
  const said = library.ofKind("site").map((site) => [meaningOf(site).name, siteFacts(site)].flat().join("\n"));
  return hashOf(said.sort());
}

function siteFacts(site: Declaration): string[] {
  const counted = meaningOf(site).facts.filter((f) => f.block !== "" || !f.isRead || !uncounted.has(f.word));
  return counted.map((f) => f.key).sort();
}

/** Roles of the site that the recipe itself names: who checks a step, who signs a deviation. */
export function rolesNamed(recipe: Recipe, library: Library): string[] {
  return library
    .surroundings()
    .policy.roles.filter((role) => namesRole(recipe, role))
    .sort();
}

const uncounted = new Set(["approvals", "role"]);

function namesRole(recipe: Recipe, role: string): boolean {
  const { facts, steps } = meaningOf(recipe);
  const name = canonicalJson({ name: role });
  return [...facts, ...steps].some((said) => said.key.includes(name));
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
