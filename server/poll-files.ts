/**
 * For files whose changes the editor does not tell, which are all of them, or those of a library that lies around its folders: a look
 * at the disk every few seconds while nobody types. What counts as changed is the time and size of a file; its text is then read, so
 * that a touched file with the same text changes nothing.
 */
import type { Serving } from "./serving.ts";
import { isWithin } from "./session.ts";
import { rereadWorkspace } from "./workspace.ts";

const every = 3000;

export function pollFiles(serving: Serving): void {
  const { host } = serving;
  if (!host.stamp) return;
  // What the editor tells itself is known from the start.
  let known: string | undefined = serving.client.watchesFiles ? "" : undefined;
  const look = async () => {
    const now = await stamps(serving);
    // The first time too: a file may have changed between its reading at the start and this look. Stamps come before texts, so that
    // what changes in between shows at the next look.
    if (now !== known && serving.stage === "open") {
      await rereadWorkspace(serving);
      serving.publisher.queueAll();
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
  look().then(again, again);
}

/** The files that are to be looked at with their stamps, as one text. */
async function stamps(serving: Serving): Promise<string> {
  const { session, host, client } = serving;
  const around = [...session.libraryFolders].filter(
    (f) => ![...session.folders].some((known) => f === known || isWithin(f, known)),
  );
  const lines: string[] = [];
  for (const folder of client.watchesFiles ? around : [...session.folders, ...around]) {
    for (const key of await host.recipesUnder(folder)) lines.push(`${key} ${await host.stamp!(key)}`);
  }
  if (client.watchesFiles) return lines.join("\n");
  for (const key of session.inventoryKeys()) lines.push(`${key} ${await host.stamp!(key)}`);
  return lines.join("\n");
}
