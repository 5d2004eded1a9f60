/** The process: standard streams in, exit status out. Everything else is in `program.ts`. */
import { isMainThread, workerData } from "node:worker_threads";
import { largestFile } from "../../language/syntax/decode.ts";
import { CannotRun, reasonOf } from "./cannot-run.ts";
import { engine } from "./engine.ts";
import { run } from "./program.ts";
import { readToEnd } from "./read-file.ts";
import { secondThreadWord } from "./second-thread.ts";
import { isCompareJob, serveCompareThread } from "./serve-compare-thread.ts";
import { isJob, serveSecondThread } from "./serve-second-thread.ts";
import type { Outlet, Surroundings } from "./surroundings.ts";

/** What standard output could not take; the stream itself forgets it a moment later. */
let lost: NodeJS.ErrnoException | undefined;

// Told once all is written (`loss`); without somebody listening it would end the program.
process.stdout.on("error", (error) => {
  lost ??= error;
});
process.stderr.on("error", () => {});

/**
 * Why what stood on standard output is lost. A reader that stops early (`| head`) closes the pipe; the rest of the report is then
 * nobody's, and no fault.
 */
function loss(): string | undefined {
  const error: NodeJS.ErrnoException | undefined = process.stdout.errored ?? lost;
  return error === undefined || error.code === "EPIPE" ? undefined : reasonOf(error);
}

function outlet(stream: NodeJS.WriteStream): Outlet {
  return {
    write: (text) => {
      stream.write(text);
    },
    isTerminal: stream.isTTY === true,
    // A terminal that does not know its width says 0.
    columns: stream.isTTY ? stream.columns || undefined : undefined,
  };
}

/** A little more than a file may have: what never ends is told as too large. */
const mostOfStdin = largestFile + 1024 * 1024;

function readStdin(): Buffer {
  try {
    return readToEnd(0, mostOfStdin);
  } catch (error) {
    throw new CannotRun(`Standard input cannot be read: ${reasonOf(error)}.`);
  }
}

/** All that was given to the stream has reached its reader, or the reader has gone: exit() would cut off what is still on its way. */
function written(stream: NodeJS.WriteStream): Promise<void> {
  return new Promise((resolve) => {
    // A file takes its text at once, and says a moment later that it could not.
    if (stream.writableLength === 0) setImmediate(resolve);
    else stream.write("", () => resolve());
  });
}

/** A folder that was removed under the program's feet has no name any more. */
function workingFolder(): string {
  try {
    return process.cwd();
  } catch {
    process.stderr.write("misce: The working folder no longer exists. Change to another, and start again.\n");
    process.exit(2);
  }
}

const surroundings: Surroundings = {
  cwd: workingFolder(),
  env: process.env,
  stdout: outlet(process.stdout),
  stderr: outlet(process.stderr),
  readStdin,
  now: () => new Date(),
  // The bundle is CommonJS and knows its own path; run from its sources, the program keeps nothing.
  ...(typeof __filename === "string" ? { program: __filename } : {}),
};

if (process.argv[2] !== secondThreadWord || isMainThread) {
  run(process.argv.slice(2), engine, surroundings).then(async (status) => {
    process.exitCode = status;
    await written(process.stdout);
    const why = loss();
    if (why !== undefined) {
      process.exitCode = 2;
      process.stderr.write(`misce: Standard output could not be written: ${why}. What it should have said is lost.\n`);
    }
    await written(process.stderr);
    // Called, so that nobody waits for code that V8 is still compiling in the background.
    process.exit();
  });
} else if (isJob(workerData)) {
  serveSecondThread(workerData, engine);
} else if (isCompareJob(workerData)) {
  serveCompareThread(workerData, engine);
}
