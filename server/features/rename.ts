/** Renaming over the library, with the reason where it is refused. */
import type { PrepareRenameParams, Range, RenameParams, WorkspaceEdit } from "vscode-languageserver-protocol";
import { occurrenceAt } from "../../language/answers/occurrences.ts";
import { refusalToRename, renamed } from "../../language/answers/rename.ts";
import type { Answer } from "../serving.ts";
import { Refusal } from "../wrapper.ts";
import { inPlace } from "./at.ts";
import { workspaceEdit } from "./edits.ts";

const noName = "There is no name here. Put the cursor on the name of a drug, stock, device, recipe or material.";

/** The range alone: what stands there is the old name, and an editor that misreads the member `placeholder` begins with an empty one. */
export const prepareRename: Answer<PrepareRenameParams, Range> = (serving, params) => {
  const at = inPlace(serving, params);
  const name = at && occurrenceAt(at.library, at.key, at.offset);
  const span = name && at.library.spanOf(name.at);
  if (!name || !span) throw new Refusal(noName);
  const refused = refusalToRename(at.library, name);
  if (refused !== undefined) throw new Refusal(refused);
  return at.document.range(span);
};

export const rename: Answer<RenameParams, WorkspaceEdit> = (serving, params) => {
  const at = inPlace(serving, params);
  const name = at && occurrenceAt(at.library, at.key, at.offset);
  if (!name) throw new Refusal(noName);
  const answer = renamed(at.library, name, params.newName);
  if ("refused" in answer) throw new Refusal(answer.refused);
  const edits = answer.places.flatMap((place) => {
    const span = at.library.spanOf(place);
    return span ? [{ span, text: params.newName }] : [];
  });
  return workspaceEdit(serving, edits);
};
