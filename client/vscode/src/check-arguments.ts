/** Arguments of `misce check` for a task of tasks.json. */

export interface CheckTask {
  type: "misce";
  paths: string[];
  asOf?: string;
  level?: "error" | "warning" | "note";
  [other: string]: unknown;
}

/** @param asOf the day chosen in the settings, or empty; a day in the task itself goes before it */
export function checkArguments(task: CheckTask, asOf: string): string[] {
  const day = task.asOf ?? asOf;
  return [
    "check",
    ...(day === "" ? [] : ["--as-of", day]),
    ...(task.level === undefined ? [] : ["--level", task.level]),
    // Whatever a path begins with, it is a path.
    "--",
    ...task.paths,
  ];
}
