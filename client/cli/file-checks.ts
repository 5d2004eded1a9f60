/** The findings about a file as a whole, which do not come from the language. */
import { fileDeclaresNothing } from "../../language/checks/empty-file.ts";
import type { Finding } from "../../shared/finding.ts";
import type { CheckDescription } from "./engine-contract.ts";

export const fileNotUtf8: CheckDescription = {
  name: "file-not-utf-8",
  family: "structure",
  severity: "error",
  title: "The file cannot be read as UTF-8 text",
  why: "Read in another encoding, letters and signs such as the micro sign change, and a dose with them.",
  source: "common practice",
  bad: "",
  good: "",
};

export const fileTooLarge: CheckDescription = {
  name: "file-too-large",
  family: "structure",
  severity: "error",
  title: "The file is larger than a recipe file can be",
  why: "A file of this size is not a recipe file, and none of it has been checked.",
  source: "common practice",
  bad: "",
  good: "",
};

export const fileChecks: readonly CheckDescription[] = [
  fileNotUtf8,
  fileTooLarge,
  { ...fileDeclaresNothing, bad: "", good: "" },
];

export function fileFinding(check: CheckDescription, file: string, message: string): Finding {
  const { name, family, severity, why, source } = check;
  const span = { file, start: 0, end: 0 };
  return { name, family, severity, span, message, related: [], why, source, fixes: [], subject: "", anchor: "" };
}
