/** Words of the status bar item. */
import type { LibraryStatus } from "../../../shared/status.ts";

export interface StatusText {
  /** With codicons. */
  text: string;
  tooltip: string;
  /** For a screen reader. */
  spoken: string;
  /** Shown on the colour of errors. */
  grave: boolean;
}

/** @param status counts, "stopped", or the scheme of the text in front where texts of that kind are not checked */
export function statusText(status: LibraryStatus | "stopped" | { notChecked: string } | undefined): StatusText {
  if (status === "stopped") {
    const spoken = "Misce is not checking: the checker has stopped. Findings shown may be old.";
    return { text: "$(error) Misce: not checking", tooltip: spoken, spoken, grave: true };
  }
  if (status && "notChecked" in status) {
    const spoken = `Misce does not check this text: it comes from "${status.notChecked}", and files and unsaved texts alone are checked. Open the file itself.`;
    return { text: "$(circle-slash) Misce: this text is not checked", tooltip: spoken, spoken, grave: false };
  }
  if (!status) {
    const spoken = "Misce is checking the library for the first time.";
    return { text: "$(sync~spin) Misce: checking", tooltip: spoken, spoken, grave: false };
  }
  const { error, warning, note } = status.counts;
  const day = status.fixed ? `as of ${status.asOf} (fixed)` : `as of ${status.asOf}`;
  const counted = `${counts(error, "error")}, ${counts(warning, "warning")}, ${counts(note, "note")}`;
  const found = error + warning + note === 0 ? "No finding" : counted;
  const files = counts(status.files, "file");
  const chosen = status.fixed ? "This day is fixed in the settings." : "This day is today and is renewed at midnight.";
  return {
    text: `$(error) ${error} $(warning) ${warning} $(info) ${note} · ${day}`,
    tooltip: `${found} in ${files}, judged ${day}. ${chosen} Select to show the findings.`,
    spoken: `Misce: ${found} in ${files}, judged ${day}.`,
    grave: false,
  };
}

function counts(count: number, word: string): string {
  return `${count} ${word}${count === 1 ? "" : "s"}`;
}
