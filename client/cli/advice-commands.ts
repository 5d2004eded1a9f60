/** The commands that explain figures and plan batches, with their flags. */
import type { Command } from "commander";
import type { Engine } from "./engine-contract.ts";
import type { FigureFlags } from "./figure-command.ts";
import type { PlanFlags } from "./plan-command.ts";
import type { Surroundings } from "./surroundings.ts";

export function addAdviceCommands(
  program: Command,
  engine: Engine,
  surroundings: Surroundings,
  finish: (status: number) => void,
): void {
  const explain = program
    .command("explain")
    .summary("tell what a check looks for, how a word is used, or how a figure of a recipe comes about")
    .description(
      "Tells what a check looks for, why, and who says so; how a word of the language is used; or prints the working of a recipe's figure, line by line. Without a name it lists all checks; with a recipe alone, its figures.",
    )
    .argument(
      "[name]",
      "a check, as a report names it; a word such as drug, order or draw; a recipe, or the file that holds it",
    )
    .argument("[figure]", "a figure of the recipe, such as dose; all for each of them");
  orderFlags(explain).action(async (name: string | undefined, figure: string | undefined, flags: FigureFlags) => {
    const { explainCommand } = await import("./explain-command.ts");
    finish(await explainCommand(name, figure, flags, engine, surroundings));
  });
  const plan = program
    .command("plan")
    .summary("plan what a batch takes from the shelf")
    .description(
      "Says which containers of each drug leave the least over, which lots to use first, and what a shortage of a stock would change.",
    )
    .argument("[recipe]", "name of a recipe, or the file that holds it; left out with --without alone")
    .option("--bags <count>", "finished containers to make (what one run makes if left out)")
    .option("--mix-strengths", "several strengths of one drug may be opened together")
    .option("--without <stock>", "which recipes of the library use this stock, and with what they still work");
  orderFlags(plan).action(async (recipe: string | undefined, flags: PlanFlags) => {
    const { planCommand } = await import("./plan-command.ts");
    finish(await planCommand(recipe, flags, engine, surroundings));
  });
}

function orderFlags(command: Command): Command {
  return command
    .option("--library <folder>", "where to look for the name (the working folder if left out)")
    .option("--recipe <name>", "which recipe of a file that holds several")
    .option("--weight <weight>", "body weight, such as 60.5kg")
    .option("--age <age>", "age, such as 8years")
    .option("--body-surface <area>", "body surface, such as 1.73m2")
    .option("--lumen <volume>", "volume of the lumen, such as 1.5mL")
    .option("--clearance <rate>", "clearance by the kidneys, such as 90mL/min")
    .option("--as-of <day>", "judge lots as on this day, YYYY-MM-DD (today if left out)")
    .option("--inventory <file...>", "a CSV export with the lots on the shelf")
    .option("--format <form>", "text or json (text if left out)");
}
