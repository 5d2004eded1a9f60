/** What an editor may ask of the server beyond the protocol, and the commands that an editor's side may carry out. Plain data. */

/** Request: a recipe followed at one order, as text to read. */
export const runAtRequest = "misce/runAt";

export interface RunAtParams {
  uri: string;
  /** Name of a recipe of that file. */
  recipe: string;
  /** As findings say it: `weight 50 kg`, `weight 12 kg and age 3 months`; empty for an order without a range. */
  point: string;
}

/** The text, or why there is none. */
export type RunAtAnswer = { text: string } | { refusal: string };

/**
 * Commands that the server puts behind lenses and actions. An editor names those that it has in its initialization options
 * (`commands`); an editor without one shows the line alone, or no action. Arguments are in the order given.
 */
export const editorCommands = {
  /** URI, position, locations. */
  showUses: "misce.showUses",
  /** No arguments: the editor's own list of findings. */
  showFindings: "misce.showFindings",
  /** URI, recipe, point. */
  openRun: "misce.openRun",
  /** URI, recipe, inputs of its order with their range: `[{ input: "weight", range: "40 kg to 120 kg" }]`. */
  printSheet: "misce.printSheet",
  /** URI. */
  compareWithCommit: "misce.compareWithCommit",
  /** URI, recipe. */
  approve: "misce.approve",
} as const;

export interface AskedInput {
  /** As `misce sheet` names it: `weight`, `body-surface`. */
  input: string;
  range: string;
}
