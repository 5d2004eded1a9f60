/**
 * For files whose changes the editor does not tell, which are all of them, or those of a library that lies around its folders: a look
 * at the disk every few seconds while nobody types. What counts as changed is the time and size of a file; its text is then read, so
 * that a touched file with the same text changes nothing. Of an editor that tells changes, the folders are looked at: when one is
 * deleted, renamed or put in place whole, editors tell of the folder and not of its files, if they tell at all. So are files that a link
 * brings in, which editors do not watch.
 */
import { covers } from "./folders.ts";
import { inTurn } from "./in-turn.ts";
import type { Serving } from "./serving.ts";
import { namedInventories, rereadWorkspace } from "./workspace.ts";

const every = 3000;

export function pollFiles(serving: Serving): void {
  const { host } = serving;
  if (!host.stamp) return;
  let known: string | undefined;
  let linked: string[] = [];
  const look = async () => {
    if (known === undefined) linked = await broughtByLinks(serving);
    const now = await stamps(serving, linked);
    // The first time too: a file may have changed between its reading at the start and this look, and an editor that watches began to
    // do so only in between. Stamps come before texts, so that what changes in between shows at the next look.
    if (now !== known && serving.stage === "open") {
      await inTurn(serving, () => rereadWorkspace(serving));
      serving.publisher.queueAll();
      // What a new link brings in has its stamp at the next look.
      linked = await broughtByLinks(serving);
    }
    known = now;
  };
  const again = () => {
    host.after(every, () => {
      const looking = performance.now() - serving.publisher.lastEdit < every ? Promise.resolve() : look();
      looking
        .catch((error) => serving.connection.console.warn(`misce: files could not be looked at: ${error}`))
        .then(again);
    });
  };
  // An editor that watches misses little, so that reading all again can wait for a pause.
  if (serving.client.watchesFiles && around(serving).length === 0) again();
  else look().then(again, again);
}

/** Library folders that lie in no workspace folder. */
function around({ session }: Serving): string[] {
  const folders = [...session.folders];
  return [...session.libraryFolders].filter((f) => !folders.some((known) => covers(known, f)));
}

/** What is to be looked at with its stamps, as one text. */
async function stamps(serving: Serving, linked: readonly string[]): Promise<string> {
  const { session, host, client } = serving;
  // An inventory may lie outside the folders, and one that is not there now may come.
  const looked = [...namedInventories(serving)];
  if (client.watchesFiles) looked.push(...foldersOfRecipes(serving), ...linked);
  for (const folder of client.watchesFiles ? around(serving) : [...session.folders, ...around(serving)])
    looked.push(...(await host.recipesUnder(folder)));
  // A record that comes or goes shows in its folder; one that is written anew does not.
  const { records } = serving.approvals;
  const isTold = (folder: string) => client.watchesFiles && [...session.folders].some((known) => covers(known, folder));
  for (const folder of records.folders()) if (!isTold(folder)) looked.push(...(await host.recordsIn(folder)));
  const lines: string[] = [];
  for (const key of looked) lines.push(`${key} ${await host.stamp!(key)}`);
  return lines.join("\n");
}

async function broughtByLinks({ session, host, client }: Serving): Promise<string[]> {
  if (!client.watchesFiles) return [];
  return (await Promise.all([...session.folders].map((folder) => host.linkedUnder?.(folder) ?? []))).flat();
}

/** The workspace folders and those below them that lead to a recipe file. */
function foldersOfRecipes({ session, host }: Serving): Set<string> {
  const found = new Set(session.folders);
  for (const key of session.keys()) {
    let folder = host.folderOf(key);
    const way: string[] = [];
    while (folder !== undefined && !found.has(folder)) {
      way.push(folder);
      folder = host.folderOf(folder);
    }
    // The way ends above every workspace folder where the file lies in none.
    if (folder !== undefined) for (const step of way) found.add(step);
  }
  return found;
}
