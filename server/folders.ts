/** Which files a folder stands for, by their names alone. */

export function isWithin(key: string, folder: string): boolean {
  return key.startsWith(folder) && (folder.endsWith("/") || key[folder.length] === "/");
}

/** Folders that no check looks into, as on the command line. */
export function isLeftOut(name: string): boolean {
  return name === "node_modules" || name.startsWith(".");
}

/** Whether a check of the folder comes by the file: it lies there, and in no folder that is left out. A folder covers itself. */
export function covers(folder: string, key: string): boolean {
  return key === folder || (isWithin(key, folder) && leftOutBetween(folder, key) === undefined);
}

/** The name of the folder, below `folder` and above the file, into which no check looks. */
export function leftOutBetween(folder: string, key: string): string | undefined {
  return key.slice(folder.length).split("/").slice(0, -1).find(isLeftOut);
}
