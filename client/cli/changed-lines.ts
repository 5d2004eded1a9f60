/** Where two texts of a check's example differ: a whole library would bury the one line that matters. */
import { structuredPatch } from "diff";

/** Lines shown on either side of what differs. */
const around = 3;

/**
 * Lines that the first text has alone after `-`, those that the second has alone after `+`, those around them after a blank; above each
 * group the head of the declaration that it stands in.
 */
export function changedLines(before: string, after: string): string {
  const [left, right] = [before, after].map((text) => `${text.replace(/^\n+|\s+$/g, "")}\n`) as [string, string];
  const { hunks } = structuredPatch("", "", left, right, "", "", { context: around });
  const above = left.split("\n");
  return hunks
    .map(({ oldStart, lines }) => {
      const head = above.slice(0, oldStart - 1).findLast((line) => /^[a-z]/.test(line));
      const isHeaded = head === undefined || lines.some((line) => /^[ -][a-z]/.test(line));
      return [...(isHeaded ? [] : [`  ${head}`, "    ..."]), ...lines.map((line) => `${line[0]} ${line.slice(1)}`)]
        .map((line) => `    ${line}`.trimEnd())
        .join("\n")
        .replace(/^\n+/, "");
    })
    .join("\n\n");
}
