/** Which library each file belongs to: that of the nearest site above it, or none but itself. */
import { covers, isWithin, leftOutBetween } from "./folders.ts";
import { groupBySite } from "./grouping.ts";

/** Why a file is no part of a library, or an unsaved text of none yet. */
export type Aside = { why: "left-out"; folder: string } | { why: "by-link" } | { why: "unsaved" };

export interface Home {
  /** Folder of the site, or undefined for a file alone. */
  root: string | undefined;
  keys: Set<string>;
}

export interface Membership {
  /** By a name that a home keeps while its root stays. */
  homes: Map<string, Home>;
  aside: Map<string, Aside>;
}

export interface Known {
  /** Every file on the disk and every open text. */
  keys: Iterable<string>;
  /** Those that declare a site. */
  sites: ReadonlySet<string>;
  /** Of the workspace. */
  folders: ReadonlySet<string>;
  folderOf(key: string): string | undefined;
  /** Whether the library has the file under another name. */
  isByLink(key: string): boolean;
}

/** The name of the home at a root. */
export function homeName(root: string): string {
  return `root ${root}`;
}

export function membership({ keys, sites, folders, folderOf, isByLink }: Known): Membership {
  const grouping = groupBySite(new Set([...sites].filter((key) => !isByLink(key))), folderOf);
  // An unsaved text belongs to the library that is open here, where there is but one.
  const here = [...grouping.roots].filter((root) =>
    [...folders].some((folder) => covers(folder, root) || isWithin(folder, root)),
  );
  const whyAside = (key: string, own: string | undefined): Aside | undefined => {
    const folder = own === undefined || isUnsaved(key) ? undefined : leftOutBetween(own, key);
    if (folder !== undefined) return { why: "left-out", folder };
    if (isByLink(key)) return { why: "by-link" };
    return own === undefined && isUnsaved(key) && here.length > 1 ? { why: "unsaved" } : undefined;
  };
  const found: Membership = { homes: new Map(), aside: new Map() };
  for (const key of keys) {
    const own = grouping.rootOf(key);
    const aside = whyAside(key, own);
    if (aside) {
      found.aside.set(key, aside);
      continue;
    }
    const root = own ?? (isUnsaved(key) ? here[0] : undefined);
    const name = root === undefined ? `file ${key}` : homeName(root);
    const home = found.homes.get(name);
    if (home) home.keys.add(key);
    else found.homes.set(name, { root, keys: new Set([key]) });
  }
  return found;
}

function isUnsaved(key: string): boolean {
  return key.startsWith("untitled:");
}
