/**
 * Tells the editor how many findings stand and on which day they were judged, a moment after the last change. The
 * publisher counts as it looks at each file; here they are only added up.
 */
import { type Severity, severities } from "../shared/finding.ts";
import { type LibraryStatus, statusNotification } from "../shared/status.ts";
import type { Serving } from "./serving.ts";

const restMs = 250;
const waiting = new WeakMap<Serving, () => void>();
const told = new WeakMap<Serving, string>();

/** Call after anything that may change a finding or the day. */
export function tellStatusSoon(serving: Serving): void {
  if (!serving.client.takesStatus) return;
  waiting.get(serving)?.();
  waiting.set(
    serving,
    serving.host.after(restMs, () => tell(serving)),
  );
}

function tell(serving: Serving): void {
  if (serving.stage === "shut") return;
  const status = statusOf(serving);
  const text = JSON.stringify(status);
  if (told.get(serving) === text) return;
  told.set(serving, text);
  void serving.connection.sendNotification(statusNotification, status);
}

export function statusOf({ session, settings, publisher }: Serving): LibraryStatus {
  const counts: Record<Severity, number> = { error: 0, warning: 0, note: 0 };
  const recipes = session.keys().filter((key) => session.isAsked(key));
  for (const key of [...recipes, ...session.inventoryKeys()]) {
    const own = publisher.counts.get(key);
    if (!own) continue;
    for (const severity of severities) counts[severity] += own[severity];
  }
  return { asOf: session.day, fixed: settings.asOf !== undefined, files: recipes.length, counts };
}
