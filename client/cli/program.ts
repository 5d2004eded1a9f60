/** The commands and flags, and nothing else: each command's own file is loaded only when it runs. */
import { existsSync } from "node:fs";
import { resolve } from "node:path";
import { Command, CommanderError } from "commander";
import { safetyNotice } from "../../shared/report.ts";
import { addExportCommand } from "./add-export-command.ts";
import { addAdviceCommands } from "./advice-commands.ts";
import { CannotRun } from "./cannot-run.ts";
import type { CheckFlags } from "./check-settings.ts";
import type { Engine } from "./engine-contract.ts";
import type { FormatFlags } from "./format-command.ts";
import { addMeaningCommands } from "./meaning-commands.ts";
import { visible } from "./reports/visible.ts";
import type { SheetFlags } from "./sheet-settings.ts";
import type { Surroundings } from "./surroundings.ts";
import { version } from "./version.ts";

const exits = `
Exit status: 0 nothing found at or above the level, 1 something found, 2 could not run or not all files could be checked,
3 nothing found but parts of an order's range that could not be decided.
${safetyNotice}`;

/** Runs one command line (without the program's own name). Never throws. @returns the exit status. */
export async function run(words: readonly string[], engine: Engine, surroundings: Surroundings): Promise<number> {
  let status = 0;
  const program = programOf(engine, surroundings, (result) => {
    status = result;
  });
  try {
    await program.parseAsync([...words], { from: "user" });
    return status;
  } catch (error) {
    if (error instanceof CommanderError) {
      const hint = hintFor(error, words, surroundings.cwd);
      if (hint !== undefined) surroundings.stderr.write(`misce: ${shown(hint)}\n`);
      return error.exitCode === 0 ? 0 : 2;
    }
    const told = error instanceof CannotRun ? error.message : `A fault of this program: ${faultOf(error)}`;
    surroundings.stderr.write(`misce: ${shown(told)}\n`);
    return 2;
  }
}

/** What to write in place of words that no command takes. */
function hintFor({ code, message }: CommanderError, words: readonly string[], cwd: string): string | undefined {
  const [command = ""] = words;
  if (code === "commander.unknownCommand") {
    const isPath = existsSync(resolve(cwd, command));
    return isPath ? `To check it: misce check "${command}"` : "misce help lists the commands.";
  }
  if (code !== "commander.unknownOption") return undefined;
  const option = /'(.*)'/s.exec(message)?.[1] ?? "";
  if (existsSync(resolve(cwd, option))) return `To name the file of that name, write "./${option}".`;
  return command.startsWith("-") ? "misce --help lists the options." : `misce help ${command} lists the options.`;
}

/** Paths and names may hold anything; the lines of a message are its own. */
function shown(text: string): string {
  return text.split("\n").map(visible).join("\n");
}

function faultOf(error: unknown): string {
  return error instanceof Error ? (error.stack ?? error.message) : String(error);
}

function programOf(engine: Engine, surroundings: Surroundings, finish: (status: number) => void): Command {
  const program = new Command("misce")
    .description("Checks sterile preparation recipes by following their steps at a simulated bench.")
    .version(version, "--version", "print the version")
    .helpOption("--help", "print this help")
    .helpCommand("help [command]", "print help for a command")
    .addHelpText("afterAll", exits)
    .configureHelp({ helpWidth: surroundings.stdout.columns ?? 100 })
    .configureOutput({
      writeOut: (text) => surroundings.stdout.write(text),
      writeErr: (text) => surroundings.stderr.write(text),
      outputError: (text, write) => write(shown(text.replace(/^error: /, "misce: "))),
    })
    .exitOverride();
  addCheck(program, engine, surroundings, finish);
  addSheet(program, engine, surroundings, finish);
  addExportCommand(program, engine, surroundings, finish);
  addMeaningCommands(program, engine, surroundings, finish);
  program
    .command("format")
    .summary("write recipes in the canonical layout")
    .description("Writes recipes in the canonical layout. With - it reads standard input and writes standard output.")
    .argument("[paths...]", "files and folders (the working folder if none is given)")
    .option("--check", "change nothing; exit status 1 if a file would change")
    .action(async (paths: string[], flags: FormatFlags) => {
      const { formatCommand } = await import("./format-command.ts");
      finish(await formatCommand(paths, flags, engine, surroundings));
    });
  addAdviceCommands(program, engine, surroundings, finish);
  program
    .command("server")
    .summary("serve editors on standard streams")
    .description("Serves editors that speak the Language Server Protocol, on standard input and output.")
    .allowUnknownOption()
    .allowExcessArguments()
    .action(async () => {
      const { serverCommand } = await import("./server-command.ts");
      finish(await serverCommand(surroundings));
    });
  return program;
}

function addCheck(
  program: Command,
  engine: Engine,
  surroundings: Surroundings,
  finish: (status: number) => void,
): void {
  program
    .command("check")
    .summary("check recipes and report what is found")
    .description("Checks recipes with the whole library they belong to: the folder of the file that declares the site.")
    .argument("[paths...]", "files and folders (the working folder if none is given); - reads standard input")
    .option("--as-of <day>", "judge dates as on this day, YYYY-MM-DD (today if left out)")
    .option("--format <form>", "text, json, sarif, junit, github or gitlab (text if left out)")
    .option("--output <file>", "write the report to a file")
    .option("--level <severity>", "error, warning or note: what gives exit status 1 (warning if left out)")
    .option("--report-only", "exit status 0 whatever is found")
    .option("--quiet", "findings only, no summary and no progress")
    .option("--colour", "colour the text report (also --color)")
    .option("--no-colour", "do not colour it (also --no-color, or NO_COLOR set)")
    .option("--stdin-name <file>", "the file that the text on standard input stands for")
    .option("--changed <file...>", "report only these files and those that use something declared in them")
    .option("--changed-since <revision>", "the same for what differs from a git revision")
    .option("--baseline <file>", "count, but do not report, the findings listed in this file")
    .option("--write-baseline", "write that list: a first one, or a shorter one")
    .option("--inventory <file...>", "a CSV export with the lots on the shelf")
    .option("--no-cache", "check everything anew and keep nothing for the next run")
    .option("--cache-folder <folder>", "keep answers for the next run here (a folder of the system if left out)")
    .addOption(hidden(program, "--color"))
    .addOption(hidden(program, "--no-color"))
    .action(async (paths: string[], flags: CheckFlags) => {
      const { checkCommand } = await import("./check-command.ts");
      finish(await checkCommand(paths, flags, engine, surroundings));
    });
}

function addSheet(
  program: Command,
  engine: Engine,
  surroundings: Surroundings,
  finish: (status: number) => void,
): void {
  program
    .command("sheet")
    .summary("print the sheet and the label of one preparation")
    .description(
      "Writes what the technician follows at the bench, for one order: HTML on standard output, or HTML or PDF.",
    )
    .argument("<recipe>", "name of a recipe, or the file that holds it")
    .option("--library <folder>", "where to look for the name (the working folder if left out)")
    .option("--recipe <name>", "which recipe of a file that holds several")
    .option("--weight <weight>", "body weight, such as 60.5kg")
    .option("--age <age>", "age, such as 8years")
    .option("--body-surface <area>", "body surface, such as 1.73m2")
    .option("--lumen <volume>", "volume of the lumen, such as 1.5mL")
    .option("--clearance <rate>", "clearance by the kidneys, such as 90mL/min")
    .option("--bags <count>", "finished containers to make (what one run makes if left out)")
    .option("--at <moment>", "date and time of preparation, 2026-11-25T09:30 (now if left out)")
    .option("--time-zone <zone>", "whose clock that is, such as Europe/London (the site's if left out)")
    .option("--lot <material=lot>", "a lot that goes in, such as mag=KQ-2291; again for each further one", oneMore)
    .option("--number <number>", "order or batch number, printed and in the bar code")
    .option("--gtin <number>", "trade number, where the site has allotted one to this preparation")
    .option("--fingerprint <text>", "refuse unless the recipe's meaning has this fingerprint")
    .option("--revision <text>", "revision, printed on every page (that of the approval that holds, if left out)")
    .option("--inventory <file...>", "a CSV export with the lots on the shelf")
    .option("--out <file>", "write to a file that ends in .html, .pdf, or .json for its data")
    .option("--paper <size>", "A4 or Letter, for PDF (A4 if left out; HTML fits both)")
    .option("--label", "the labels alone")
    .option("--batch", "a batch for stock: batch number in place of the patient")
    .action(async (recipe: string, flags: SheetFlags) => {
      const { sheetCommand } = await import("./sheet-command.ts");
      finish(await sheetCommand(recipe, flags, engine, surroundings));
    });
}

/** A flag that may be given again; a list after one flag would swallow the recipe's name. */
function oneMore(value: string, before: string[] | undefined): string[] {
  return [...(before ?? []), value];
}

function hidden(program: Command, flag: string) {
  return program.createOption(flag).hideHelp();
}
