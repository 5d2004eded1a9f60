/** Related places as lines of running text, for reports that have no field for them: what follows from a finding stands there. */
import type { ReportFinding } from "../../../shared/report.ts";

export function withRelated(text: string, { related }: Pick<ReportFinding, "related">): string {
  return [text, ...related.map(({ message, place }) => `${message} (${place.file}:${place.line})`)].join("\n");
}
