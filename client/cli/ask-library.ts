/** The answers of one library: those known from an earlier run, the rest from the library itself, by two threads where it is much. */
import { type Answer, answerFile } from "./answer-file.ts";
import type { AnswerMemory, NamedText } from "./answer-memory.ts";
import type { LibraryGroup } from "./library-groups.ts";
import { settleForLongRun } from "./long-run.ts";
import { type Job, SharedList, startSecondThread } from "./second-thread.ts";

export interface AskOptions {
  asOf: string;
  /** The program's one file, for a second thread; undefined for one thread only. */
  program: string | undefined;
  memory: AnswerMemory | undefined;
  /** Called as files are done. */
  tick(done: number): void;
}

/** Fewer files than this are done before a second thread would have started. */
const worthTwoThreads = 300;

/** Answers by file name, for files that could be read. */
export async function askLibrary(
  group: LibraryGroup,
  asked: readonly string[],
  texts: readonly NamedText[],
  options: AskOptions,
): Promise<Map<string, Answer>> {
  const { memory, tick } = options;
  const answers = new Map<string, Answer>();
  const open: string[] = [];
  for (const file of asked) {
    const known = memory?.known(file);
    if (known) answers.set(file, { findings: known.findings, ranges: known.ranges, restsOn: undefined });
    else open.push(file);
  }
  if (answers.size > 0) tick(answers.size);
  if (open.length === 0) return answers;
  const fresh = await askFresh(group, open, texts, options, answers.size);
  for (const [file, answer] of fresh) {
    answers.set(file, answer);
    if ("findings" in answer && answer.restsOn) memory?.keep(file, answer, answer.restsOn);
  }
  return answers;
}

async function askFresh(
  group: LibraryGroup,
  open: readonly string[],
  texts: readonly NamedText[],
  { asOf, program, tick }: AskOptions,
  before: number,
): Promise<Map<string, Answer>> {
  const taken = new SharedArrayBuffer(4);
  const list = new SharedList(taken, open.length);
  const job: Job = { misce: "second-thread", asOf, known: group.known, texts, asked: open, taken };
  const isMuch = program !== undefined && open.length >= worthTwoThreads;
  if (isMuch) settleForLongRun();
  const second = isMuch ? startSecondThread<Answer>(program, job) : undefined;
  const library = await group.library();
  const answers = new Map<string, Answer>();
  for (let places = list.next(); places; places = list.next()) {
    for (const file of open.slice(...places)) {
      answers.set(file, answerFile(library, file));
      // What the other thread has taken is as good as done; on one thread this counts file by file.
      tick(before + (second ? list.taken : answers.size));
    }
  }
  for (const [place, answer] of (await second) ?? []) answers.set(open[place]!, answer);
  // What a failed thread took and did not give back.
  for (const file of open) if (!answers.has(file)) answers.set(file, answerFile(library, file));
  return answers;
}
