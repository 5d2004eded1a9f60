/** `misce export` with its flags. */
import type { Command } from "commander";
import type { Engine } from "./engine-contract.ts";
import type { ExportFlags } from "./export-command.ts";
import type { Surroundings } from "./surroundings.ts";

export function addExportCommand(
  program: Command,
  engine: Engine,
  surroundings: Surroundings,
  finish: (status: number) => void,
): void {
  program
    .command("export")
    .summary("write a recipe at one order in an open format")
    .description(
      "Writes a FHIR R4 Bundle: the finished preparation, the products and substances in it, and the shape of the order as a draft proposal for no patient. What the format has no place for is told. Nothing is written while errors stand against the recipe (exit status 1).",
    )
    .argument("<recipe>", "name of a recipe, or the file that holds it")
    .option("--format <form>", "fhir (if left out)")
    .option("--out <file>", "write to a file (standard output if left out)")
    .option("--summary <file>", "write what was exported and what was left out as JSON")
    .option("--library <folder>", "where to look for the name (the working folder if left out)")
    .option("--recipe <name>", "which recipe of a file that holds several")
    .option("--weight <weight>", "body weight, such as 60.5kg")
    .option("--age <age>", "age, such as 8years")
    .option("--body-surface <area>", "body surface, such as 1.73m2")
    .option("--lumen <volume>", "volume of the lumen, such as 1.5mL")
    .option("--clearance <rate>", "clearance by the kidneys, such as 90mL/min")
    .option("--lot <material=lot>", "a lot that goes in, such as mag=KQ-2291; again for each further one", oneMore)
    .option("--as-of <day>", "judge lots as on this day, YYYY-MM-DD (today if left out)")
    .option("--inventory <file...>", "a CSV export with the lots on the shelf")
    .action(async (recipe: string, flags: ExportFlags) => {
      const { exportCommand } = await import("./export-command.ts");
      finish(await exportCommand(recipe, flags, engine, surroundings));
    });
}

/** A flag that may be given again; a list after one flag would swallow the recipe's name. */
function oneMore(value: string, before: string[] | undefined): string[] {
  return [...(before ?? []), value];
}
