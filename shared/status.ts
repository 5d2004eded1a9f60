/** What the status bar of an editor shows. The server sends it whenever a count or the day changes; plain data. */
import type { Severity } from "./finding.ts";

/** Notification from the server. */
export const statusNotification = "misce/status";

export interface LibraryStatus {
  /** ISO date on which lots, deviations and dates are judged. */
  asOf: string;
  /** A fixed day was chosen in the settings; otherwise `asOf` is today. */
  fixed: boolean;
  /** Files that were read. */
  files: number;
  /** Findings over all of them that stand (silenced ones not counted). */
  counts: Record<Severity, number>;
}
