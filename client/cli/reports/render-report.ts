/** One report, six printed forms. Each form is loaded only when it is asked for. */
import type { Report } from "../../../shared/report.ts";
import type { CheckSettings } from "../check-settings.ts";
import type { CheckDescription } from "../engine-contract.ts";
import type { SourceTexts } from "../source-text.ts";

export interface RenderContext {
  texts: SourceTexts;
  /** Descriptions of the checks that occur, by name. */
  rules: ReadonlyMap<string, CheckDescription>;
  colour: boolean;
  /** Cells of the terminal, where known. */
  width: number | undefined;
  /** Text only: findings without the summary. */
  quiet: boolean;
}

export async function renderReport(
  report: Report,
  settings: Pick<CheckSettings, "format" | "quiet">,
  given: Omit<RenderContext, "quiet">,
): Promise<string> {
  const context: RenderContext = { ...given, quiet: settings.quiet };
  switch (settings.format) {
    case "text":
      return (await import("./text.ts")).textReport(report, context);
    case "json":
      return `${JSON.stringify(report, null, 2)}\n`;
    case "sarif":
      return (await import("./sarif.ts")).sarifReport(report, context);
    case "junit":
      return (await import("./junit.ts")).junitReport(report, context);
    case "github":
      return (await import("./github.ts")).githubReport(report);
    case "gitlab":
      return (await import("./gitlab.ts")).gitlabReport(report);
  }
}
