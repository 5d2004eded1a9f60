/** What the extension and its page say to each other. */
import type { Preview, PreviewRange } from "../../../shared/preview.ts";

export type PreviewMessage =
  | { type: "show"; preview: Preview; showWorking: boolean; form: "sheet" | "rows" }
  /** Line of the cursor, from 0. */
  | { type: "cursor"; line: number }
  | { type: "fault"; text: string };

export type PageMessage =
  | { type: "ready" }
  /** Show this place in the text; with `takeFocus` the cursor goes there, else the text only scrolls. */
  | { type: "go"; range: PreviewRange; takeFocus: boolean };
