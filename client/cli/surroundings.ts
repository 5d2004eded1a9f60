/** All that a command takes from outside besides files: handed in as a value, so that a run can be repeated in a test. */
export interface Surroundings {
  /** Absolute. */
  cwd: string;
  env: Readonly<Record<string, string | undefined>>;
  stdout: Outlet;
  stderr: Outlet;
  /** All bytes of standard input. */
  readStdin(): Buffer;
  /** The clock: today's date is taken from it once, progress uses it to wait a second. */
  now(): Date;
  /** Absolute path of the program's one file; left out where it runs from its sources. Without it nothing is kept between runs. */
  program?: string;
}

export interface Outlet {
  write(text: string): void;
  isTerminal: boolean;
  /** Cells in a line, where known. */
  columns: number | undefined;
}
