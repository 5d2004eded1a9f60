/**
 * What keeps a page from people who read it with a screen reader, by keyboard or with weak sight, as axe-core finds it: the rules of
 * WCAG 2.2, levels A and AA, and that tool's good practice.
 */
import axe, { type AxeResults } from "axe-core";
import type { Frame } from "playwright-core";

const standards = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"];

/**
 * The program of the page itself is not touched: the tool comes in as the debugger does, past the page's rules for scripts.
 *
 * @returns a line for each fault, with its rule and its place
 */
export async function accessibilityFaults(frame: Frame): Promise<string[]> {
  await frame.evaluate(axe.source);
  const options = JSON.stringify({ runOnly: { type: "tag", values: standards } });
  const { violations, passes } = (await frame.evaluate(`axe.run(document, ${options})`)) as AxeResults;
  if (passes.length === 0) throw new Error("axe-core has looked at nothing");
  return violations.flatMap(({ id, help, nodes }) =>
    nodes.map(({ target, failureSummary }) => `${id}: ${help}\n  ${target.join(" ")}\n  ${failureSummary}`),
  );
}
