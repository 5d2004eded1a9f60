/** What the person at the editor has set, under `misce`. Unknown or unfit values are left aside and told, never guessed at. */

export interface Settings {
  /** Day on which lots and deviations are judged, YYYY-MM-DD; undefined for today. */
  asOf: string | undefined;
  /** Inventory exports (CSV), relative to the workspace folder. As on the command line, none is read unless it is named. */
  inventory: readonly string[];
  /** Page of findings that a finding's name links to. None by default: the tool itself never goes to the network. */
  findingsPage: string | undefined;
  hints: boolean;
}

export const usualSettings: Settings = { asOf: undefined, inventory: [], findingsPage: undefined, hints: true };

export interface SettingsReading {
  settings: Settings;
  /** Sentences about values that could not be used. */
  problems: string[];
}

/** @param given the `misce` section as the editor sends it: any JSON at all */
export function readSettings(given: unknown): SettingsReading {
  const problems: string[] = [];
  const section = given !== null && typeof given === "object" ? (given as Record<string, unknown>) : {};
  const settings: Settings = { ...usualSettings };
  const { asOf, inventory, findingsPage, hints } = section;
  if (typeof asOf === "string" && asOf !== "") {
    if (isDay(asOf)) settings.asOf = asOf;
    else
      problems.push(
        `misce.asOf is "${asOf}". Write a day as year, month and day, for example 2026-11-25; today is used.`,
      );
  }
  const paths = typeof inventory === "string" ? [inventory] : inventory;
  if (Array.isArray(paths)) settings.inventory = paths.filter((p): p is string => typeof p === "string" && p !== "");
  if (typeof findingsPage === "string" && findingsPage !== "") {
    if (/^(https?|file):\/\//.test(findingsPage)) settings.findingsPage = findingsPage;
    else
      problems.push(
        `misce.findingsPage is "${findingsPage}". Write a whole address beginning with https:// or file://.`,
      );
  }
  if (hints === false) settings.hints = false;
  return { settings, problems };
}

function isDay(text: string): boolean {
  if (!/^\d{4}-\d{2}-\d{2}$/.test(text)) return false;
  const date = new Date(`${text}T00:00:00Z`);
  return !Number.isNaN(date.getTime()) && date.toISOString().slice(0, 10) === text;
}
