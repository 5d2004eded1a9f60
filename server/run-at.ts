/** `misce/runAt`: a recipe followed at one order, as text to read. See shared/editor-requests.ts. */
import { runText } from "../language/answers/run-text.ts";
import type { RunAtAnswer, RunAtParams } from "../shared/editor-requests.ts";
import type { Serving } from "./serving.ts";

export function runAt({ session }: Serving, { uri, recipe, point }: RunAtParams): RunAtAnswer {
  const document = session.documentAt(uri);
  const library = document && session.group(document.key)?.library;
  if (!document || !library) return { refusal: "The checker does not know this file, or could not read it as text." };
  return runText(library, document.key, recipe, point);
}
