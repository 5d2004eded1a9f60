/** A reason for which the command could not do its work: told on standard error, exit status 2. */
export class CannotRun extends Error {
  override readonly name = "CannotRun";
}

/** The system's own reason, in words for somebody who is not a programmer. */
export function reasonOf(error: unknown): string {
  const code = (error as NodeJS.ErrnoException | undefined)?.code;
  switch (code) {
    case "ENOENT":
      // A name that was no UTF-8 was read with signs of replacement in it, and so leads nowhere.
      return String((error as NodeJS.ErrnoException).path).includes("\ufffd")
        ? "it does not exist, or its name is not UTF-8 (then give it another)"
        : "it does not exist";
    case "EACCES":
    case "EPERM":
      return "there is no permission for it";
    case "EISDIR":
      return "it is a folder";
    case "ENOTDIR":
      return "part of its path is a file, not a folder";
    case "ELOOP":
      return "its links lead in a circle";
    case "ENOSPC":
      return "the disk is full";
    case "EROFS":
      return "the disk is read-only";
    case "EMFILE":
    case "ENFILE":
      return "too many files are open";
    default:
      return error instanceof Error ? error.message : String(error);
  }
}

/** The same for a file that could not be written: one that is new needs its folder only. */
export function reasonNotWritten(error: unknown): string {
  const isMissing = (error as NodeJS.ErrnoException | undefined)?.code === "ENOENT";
  return isMissing ? "its folder does not exist" : reasonOf(error);
}
