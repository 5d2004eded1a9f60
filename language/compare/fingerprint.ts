/**
 * The fingerprint that an approval is bound to: `misce-meaning-3` and the SHA-256 of the recipe's whole meaning.
 *
 * Algorithm `misce-meaning-3`, so that anybody can compute it again:
 * 1. Take the recipe, and every declaration that it rests on (whole-meaning.ts).
 * 2. Of each take kind, name, facts as [block, word, value] and steps as values. Quantities are lowest-terms ratios in base units with
 *    their dimension (`4/1 mass`); places, blanks, comments and spelling of units are gone. Facts are sorted as texts, steps keep
 *    their order. Of the site the facts `approvals` and `role` are left out, because they change neither preparation nor sheet; in the
 *    place of the roles stand, sorted, those that the recipe itself names (who checks a step, who signs a deviation).
 * 3. Take each product that the sheet warns of as a look-alike, and that the recipe does not rest on (look-alikes.ts). Of it take kind,
 *    name and, as `printed`, those facts that the warning prints, as [word, value] without their source, sorted as texts.
 * 4. Write each as JSON with sorted keys and without blanks, and hash its UTF-8 bytes.
 * 5. Write [hash of the recipe, the other hashes sorted] as JSON in the same way, and hash that.
 *
 * Findings, lots and dates on a sheet are those of the day, and are no part of the meaning.
 *
 * Earlier algorithms are kept, so that an approval under one is held against the meaning in its own way: `misce-meaning-2` had no
 * step 3, and `misce-meaning-1` counted all roles of the site besides. Any change of an algorithm takes another name, so that an old
 * approval is told from a stale one.
 */

import { sha256 } from "@noble/hashes/sha2.js";
import type { Library } from "../library.ts";
import type { Declaration, Recipe } from "../model/declaration.ts";
import { keptWith } from "../model/kept-with.ts";
import { canonicalJson, type NameOf, type Plain, sameName } from "./canonical.ts";
import { lookAlikesOf, printedOf } from "./look-alikes.ts";
import { meaningOf } from "./meaning.ts";
import { nameOf, restsOn } from "./whole-meaning.ts";

export const fingerprintAlgorithm = "misce-meaning-3";

/** What each algorithm counts beside the meaning of the declarations themselves. */
const algorithms = {
  "misce-meaning-1": { allRoles: true, lookAlikes: false },
  "misce-meaning-2": { allRoles: false, lookAlikes: false },
  "misce-meaning-3": { allRoles: false, lookAlikes: true },
} as const;

export type FingerprintAlgorithm = keyof typeof algorithms;

/** The algorithm that a fingerprint names; undefined for one that this program does not know. */
export function algorithmOf(fingerprint: string): FingerprintAlgorithm | undefined {
  const [name = ""] = fingerprint.split(":");
  return Object.hasOwn(algorithms, name) ? (name as FingerprintAlgorithm) : undefined;
}

/** The algorithm's name, a colon and 64 hexadecimal digits. */
export function fingerprintOf(
  recipe: Recipe,
  library: Library,
  algorithm: FingerprintAlgorithm = fingerprintAlgorithm,
): string {
  const others = otherParts(recipe, library, algorithm).map((part) => part.hash);
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
  const all = [{ name: nameOf(recipe), hash: ownHash(recipe) }, ...otherParts(recipe, library, algorithm)];
  for (const { name, hash } of all) parts[name] = [...(parts[name] ?? []), hash.slice(0, 32)].sort();
  return Object.fromEntries(Object.entries(parts).map(([name, hashes]) => [name, hashes.join(" ")]));
}

/** What the fingerprint is made of beside the recipe itself; a name may stand in it more than once. */
function otherParts(
  recipe: Recipe,
  library: Library,
  algorithm: FingerprintAlgorithm,
): { name: string; hash: string }[] {
  const counted = restsOn(recipe, library).map(({ declaration }) => ({
    name: nameOf(declaration),
    hash: countedHash(declaration, recipe, library, algorithm),
  }));
  if (!algorithms[algorithm].lookAlikes) return counted;
  const warned = lookAlikesOf(recipe, library).map(({ declaration }) => ({
    name: `look-alike ${nameOf(declaration)}`,
    hash: hashOf(printedOf(declaration)),
  }));
  return [...counted, ...warned];
}

/** Hash of what a declaration says for this recipe: all of it, but of the site only what can bear on its preparation or sheet. */
function countedHash(
  declaration: Declaration,
  recipe: Recipe,
  library: Library,
  algorithm: FingerprintAlgorithm,
): string {
  if (declaration.kind !== "site" || algorithms[algorithm].allRoles) return ownHash(declaration);
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

/** Hash of what a declaration itself says. */
export const ownHash = keptWith((declaration: Declaration): string => hashOf(plainMeaning(declaration)));

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
