/** The inventory exports that are known, and the names under which findings speak of them. */
import { isWithin } from "./folders.ts";

/** The text of each by its key. */
export class Inventories extends Map<string, string> {
  /** @param folders of the workspace, as they are at each call */
  constructor(private readonly folders: ReadonlySet<string>) {
    super();
  }

  /**
   * Relative to its workspace folder, as a person would write it; with the folder's own name where two folders have one of the same
   * name.
   */
  nameOf(key: string): string {
    const others = [...this.keys()].filter((other) => other !== key).map((other) => this.namesOf(other));
    return this.namesOf(key).find((name, i) => !others.some((other) => other[i] === name)) ?? key;
  }

  keyNamed(name: string): string | undefined {
    return [...this.keys()].find((key) => this.nameOf(key) === name);
  }

  /** From the shortest name to the longest. */
  private namesOf(key: string): string[] {
    const folder = [...this.folders].find((each) => isWithin(key, each));
    if (folder === undefined) return [key];
    const inside = key.slice(folder.length).replace(/^\//, "");
    return [inside, `${folder.slice(folder.lastIndexOf("/") + 1)}/${inside}`, key];
  }
}
