/** The commands about meaning: compare, approve, fingerprint, and those that git calls. Flags only; each command's file is loaded when it runs. */
import { resolve } from "node:path";
import type { Command } from "commander";
import type { ApproveFlags } from "./approve-command.ts";
import { CannotRun } from "./cannot-run.ts";
import type { CompareFlags } from "./compare-command.ts";
import { decode, tooLarge } from "./decode.ts";
import type { Engine } from "./engine-contract.ts";
import type { GitSetupFlags } from "./git-setup-command.ts";
import type { MergeFlags } from "./merge-command.ts";
import { largestRecord, readFile } from "./read-file.ts";
import type { Surroundings } from "./surroundings.ts";

type Finish = (status: number) => void;

export function addMeaningCommands(program: Command, engine: Engine, surroundings: Surroundings, finish: Finish): void {
  addCompare(program, engine, surroundings, finish);
  addApprovals(program, engine, surroundings, finish);
  addForGit(program, engine, surroundings, finish);
}

function addCompare(program: Command, engine: Engine, surroundings: Surroundings, finish: Finish): void {
  program
    .command("compare")
    .summary("tell what changed in meaning, and what it does at the bench")
    .description(
      "Compares two files, folders or git revisions by what they mean: stated facts, figures at the bench, verdicts of the checks. One revision is compared with the working copy; nothing named is HEAD against the working copy.",
    )
    .argument("[sides...]", "what was, and what is: files, folders or revisions such as HEAD~1")
    .option("--staged", "compare what is staged with HEAD, or with the revision named")
    .option("--as-of <day>", "judge dates on both sides as on this day, YYYY-MM-DD (today if left out)")
    .option("--format <form>", "text, markdown, json or html (text if left out)")
    .option("--output <file>", "write the report to a file")
    .option("--level <level>", "fact, consequence or verdict: what gives exit status 1 (fact if left out)")
    .action(async (sides: string[], flags: CompareFlags) => {
      const { compareCommand } = await import("./compare-command.ts");
      finish(await compareCommand(sides, flags, engine, surroundings));
    });
}

function addApprovals(program: Command, engine: Engine, surroundings: Surroundings, finish: Finish): void {
  const named = (command: Command) =>
    command
      .argument("<recipe>", "name of a recipe, or the file that holds it")
      .option("--library <folder>", "where to look for the name (the working folder if left out)")
      .option("--recipe <name>", "which recipe of a file that holds several");
  named(program.command("approve"))
    .summary("record that a recipe was reviewed and approved")
    .description(
      "Writes role, day and fingerprint of the recipe's meaning into a record beside it. A recipe with errors is not approved.",
    )
    .requiredOption("--role <role>", "the role in which it is approved, one of the site's roles")
    .option("--as-of <day>", "the day of the approval, YYYY-MM-DD (today if left out)")
    .action(async (recipe: string, flags: ApproveFlags) => {
      const { approveCommand } = await import("./approve-command.ts");
      finish(await approveCommand(recipe, flags, engine, surroundings));
    });
  named(program.command("fingerprint"))
    .summary("print the fingerprint of a recipe's meaning")
    .description(
      "Prints the fingerprint of the recipe with all that it rests on. Layout, comments and lots do not change it.",
    )
    .action(async (recipe: string, flags: ApproveFlags) => {
      const { fingerprintCommand } = await import("./approve-command.ts");
      finish(await fingerprintCommand(recipe, flags, engine, surroundings));
    });
}

function addForGit(program: Command, engine: Engine, surroundings: Surroundings, finish: Finish): void {
  program
    .command("git-setup")
    .summary("let git show and merge recipes by meaning")
    .description(
      "Registers the diff and merge drivers in this working copy, and a hook that checks a merge as a whole.",
    )
    .option("--command <words>", "how git is to start this program (this very program if left out)")
    .option("--diff <form>", "textconv (canonical text) or compare (what misce compare tells); textconv if left out")
    .action(async (flags: GitSetupFlags) => {
      const { gitSetupCommand } = await import("./git-setup-command.ts");
      finish(gitSetupCommand(flags, surroundings));
    });
  program
    .command("textconv")
    .summary("print the meaning of a file as canonical text (for git)")
    .argument("<file>", "a recipe file")
    .action(async (file: string) => {
      finish(await textconv(file, engine, surroundings));
    });
  program
    .command("merge")
    .summary("merge two changed states of a file by meaning (for git)")
    .description(
      "Merges into OURS. Exit status 1 where a person has to settle something: two meanings of one fact, or a new error.",
    )
    .argument("<base>", "the common state")
    .argument("<ours>", "our state; takes the result")
    .argument("<theirs>", "the other state")
    .option("--path <file>", "the file that this is about, to find its library")
    .option("--as-of <day>", "judge dates as on this day, YYYY-MM-DD (today if left out)")
    .option("--print", "write the result to standard output instead")
    .action(async (base: string, ours: string, theirs: string, flags: MergeFlags) => {
      const { mergeCommand } = await import("./merge-command.ts");
      finish(await mergeCommand([base, ours, theirs], flags, engine, surroundings));
    });
  program
    .command("merge-check")
    .summary("check a merge as a whole for errors that neither side had (for git)")
    .argument("[revision]", "the other side of the merge (the one under way if left out)")
    .option("--as-of <day>", "judge dates as on this day, YYYY-MM-DD (today if left out)")
    .action(async (revision: string | undefined, flags: MergeFlags) => {
      const { mergeCheckCommand } = await import("./merge-command.ts");
      finish(await mergeCheckCommand(revision, flags, engine, surroundings));
    });
  program
    .command("git-diff")
    .summary("tell what changed in one file (for git)")
    .argument("<words...>", "what git gives a diff driver: path old-file old-hash old-mode new-file new-hash new-mode")
    .action(async ([path = "", before = "", , , after = ""]: string[]) => {
      const { compareCommand } = await import("./compare-command.ts");
      surroundings.stdout.write(`${path}\n`);
      // git reads any status but 0 as a failure of the driver; what changed is told in words.
      const status = await compareCommand([before, after], { of: path }, engine, surroundings);
      finish(status === 2 ? 2 : 0);
    });
}

/** What cannot be read as text is shown as git would show it: with a word, not with nothing. */
async function textconv(file: string, engine: Engine, { cwd, stdout }: Surroundings): Promise<0> {
  const { meaningMakerOf } = await import("./compare-command.ts");
  const maker = await meaningMakerOf(engine);
  const read = readFile(resolve(cwd, file), { most: largestRecord });
  if ("reason" in read) throw new CannotRun(`"${file}" cannot be read: ${read.reason}.`);
  const decoded = "bytes" in read ? decode(read.bytes, file) : { finding: tooLarge(file, read.tooLarge) };
  stdout.write("text" in decoded ? maker.meaningText(decoded.text) : `not read: ${decoded.finding.message}\n`);
  return 0;
}
