/**
 * `misce explain NAME`: what a check looks for, why, who says so, and the smallest text that shows it; how a word of the language is
 * used; or a figure of a recipe.
 */
import { nearNames } from "../../language/model/near.ts";
import { safetyNotice } from "../../shared/report.ts";
import { requireDay } from "./as-of.ts";
import { CannotRun } from "./cannot-run.ts";
import type { CheckDescription, Engine } from "./engine-contract.ts";
import type { FigureFlags } from "./figure-command.ts";
import { fileChecks } from "./file-checks.ts";
import { byCodeUnit } from "./folders.ts";
import { isFile, NoRecipesHere, NoSuchRecipe } from "./open-recipe.ts";
import type { Surroundings } from "./surroundings.ts";
import { wordExplained, wordsOf } from "./word-explained.ts";

/**
 * The first word decides: a check's name explains the check, a word of the language how it is used, anything else is a recipe (or its
 * file) whose figure is asked for. A recipe that is called like a word is asked for with its figure, or by its file.
 * Without a name, the list of all checks by family.
 * @throws CannotRun for a name that is neither
 */
export async function explainCommand(
  name: string | undefined,
  figure: string | undefined,
  flags: FigureFlags,
  engine: Engine,
  surroundings: Surroundings,
): Promise<0 | 1> {
  const checks = [...fileChecks, ...(await engine.checks())];
  if (name === undefined) {
    requireNoFlags(flags, "The list of checks is written as text and depends on no order.");
    surroundings.stdout.write(listOf(checks));
    return 0;
  }
  const check = checks.find((c) => c.name === name);
  if (check && figure !== undefined) {
    throw new CannotRun(`"${name}" is a check and has no figures. Leave out "${figure}", or name a recipe.`);
  }
  if (check) {
    requireNoFlags(flags, `"${name}" is a check, which is told as text and depends on no order.`);
    surroundings.stdout.write(await explanation(check));
    return 0;
  }
  const blocks = (await engine.words?.()) ?? [];
  const used = figure === undefined ? wordExplained(name, blocks) : undefined;
  if (used !== undefined) {
    requireNoFlags(flags, `"${name}" is a word of the language, which is told as text and depends on no order.`);
    surroundings.stdout.write(used);
    return 0;
  }
  const known = [...checks.map((c) => c.name), ...wordsOf(blocks)];
  const trade = figure === undefined ? ((await engine.tradeWord?.())?.(name) ?? []) : [];
  if (!engine.adviser) throw neither(name, known, trade);
  const { figureCommand } = await import("./figure-command.ts");
  try {
    return await figureCommand(name, figure, flags, engine, surroundings);
  } catch (error) {
    if (error instanceof NoSuchRecipe) throw neither(name, known, trade, error.near);
    if (error instanceof NoRecipesHere && !isFile(name, surroundings)) {
      throw new CannotRun(`${neither(name, known, trade).message} As for a recipe: ${error.message}`);
    }
    throw error;
  }
}

/** Flags of a figure: what is asked for and not heeded would be taken for granted. The day and the folder only say where one stands. */
function requireNoFlags({ asOf, library: _, ...flags }: FigureFlags, why: string): void {
  if (asOf !== undefined) requireDay(asOf);
  const given = Object.entries(flags).filter(([flag, value]) => !(flag === "format" && value === "text"));
  const words = given.map(([flag]) => `--${flag.replace(/[A-Z]/g, (letter) => `-${letter.toLowerCase()}`)}`);
  if (words.length > 0) throw new CannotRun(`${why} Leave out ${words.join(" and ")}.`);
}

function neither(
  name: string,
  known: readonly string[],
  trade: readonly { inside: string; text: string }[],
  recipes?: readonly string[],
): CannotRun {
  if (trade.length > 0)
    return new CannotRun(
      `"${name}" is no word of the language. ${trade.map(({ inside, text }) => `In ${inside}: ${text}`).join(" ")}`,
    );
  const near = nearNames(name, known);
  const all = [...new Set([...near, ...(recipes ?? [])])];
  const hint =
    all.length > 0 ? `Did you mean ${all.join(" or ")}?` : "misce explain, without a name, lists the checks.";
  const what = recipes ? `No check, word or recipe here is called "${name}".` : `No check is called "${name}".`;
  const where = recipes ? " For a recipe elsewhere name its file, or the library's folder with --library." : "";
  return new CannotRun(`${what} ${hint}${where}`);
}

/** Beyond so many lines a text is told by what is wrong in it. */
const fewLines = 30;

async function explanation(check: CheckDescription): Promise<string> {
  const parts = [
    `${check.title}\n${check.severity}, ${check.family}: ${check.name}`,
    `Why     ${check.why}\nSource  ${check.source}`,
  ];
  const isLong = [check.bad, check.good].every((text) => text.split("\n").length > fewLines);
  if (isLong) {
    const { changedLines } = await import("./changed-lines.ts");
    parts.push(
      `It is found with the lines after -, and not with those after + in their place:\n\n${changedLines(check.bad, check.good)}`,
    );
  } else {
    if (check.bad !== "") parts.push(`It is found here:\n\n${indented(check.bad)}`);
    if (check.good !== "") parts.push(`Right:\n\n${indented(check.good)}`);
  }
  return `${[...parts, safetyNotice].join("\n\n")}\n`;
}

function indented(text: string): string {
  return text
    .replace(/^\n+|\s+$/g, "")
    .split("\n")
    .map((line) => (line === "" ? "" : `    ${line}`))
    .join("\n");
}

function listOf(checks: readonly CheckDescription[]): string {
  const families = [...new Set(checks.map((check) => check.family))].sort(byCodeUnit);
  const width = Math.max(...checks.map((check) => check.name.length)) + 2;
  const blocks = families.map((family) => {
    const own = checks.filter((check) => check.family === family).sort((a, b) => byCodeUnit(a.name, b.name));
    return [family, ...own.map((c) => `  ${c.name.padEnd(width)}${c.severity.padEnd(9)}${c.title}`)].join("\n");
  });
  return `${blocks.join("\n\n")}\n`;
}
