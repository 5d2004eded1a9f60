/**
 * Which files share one library, by the command line's rule: a library root is the folder of a file that declares `site`; a file
 * belongs to the nearest root above it, and one with no root above it stands alone with the built-in devices. Pure.
 */

export interface Grouping {
  /** The root folders themselves. */
  roots: ReadonlySet<string>;
  /** Root folder of a file, or undefined for one that stands alone. */
  rootOf(key: string): string | undefined;
}

/**
 * @param sites keys of files whose text declares a site
 * @param folderOf the folder of a file or folder, undefined at the top
 */
export function groupBySite(sites: ReadonlySet<string>, folderOf: (key: string) => string | undefined): Grouping {
  const roots = new Set<string>();
  for (const key of sites) {
    const folder = folderOf(key);
    // Only recipe files make a folder a library; a file of another name that declares a site speaks for itself.
    if (folder !== undefined && /\.misce$/i.test(key)) roots.add(folder);
  }
  const known = new Map<string, string | undefined>();
  const above = (folder: string): string | undefined => {
    if (roots.has(folder)) return folder;
    if (known.has(folder)) return known.get(folder);
    const next = folderOf(folder);
    const root = next === undefined ? undefined : above(next);
    known.set(folder, root);
    return root;
  };
  return {
    roots,
    rootOf(key) {
      const folder = folderOf(key);
      if (folder === undefined) return undefined;
      return sites.has(key) ? folder : above(folder);
    },
  };
}
