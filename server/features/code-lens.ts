/**
 * Lines above declarations: what stands against a recipe, how far its range was decided, how many recipes use a stock or drug.
 * What stands is told with the list itself, for the text as it is; a line that was asked for and answered later could speak of an
 * earlier text. Where nothing stands there is no line: it would be read as an all-clear.
 */
import type { CodeLens, CodeLensParams, Command } from "vscode-languageserver-protocol";
import { occurrenceAt, recipesUsing, sameName } from "../../language/answers/occurrences.ts";
import { type RecipeVerdict, verdictsOf } from "../../language/answers/recipe-verdict.ts";
import { inputRanges } from "../../language/bench/order.ts";
import { type AskedInput, editorCommands } from "../../shared/editor-requests.ts";
import type { Answer, Serving } from "../serving.ts";
import { type InFile, inFile, locationOf } from "./at.ts";

interface Kept {
  uri: string;
  name: string;
}

const counted = new Set(["stock", "drug", "fluid", "device", "reference", "bands"]);

export const codeLenses: Answer<CodeLensParams, CodeLens[] | null> = (serving, params) => {
  const at = inFile(serving, params.textDocument);
  if (!at) return null;
  const lenses = verdictsOf(at.library, at.key, serving.approvals.findings(at.key)).flatMap((verdict) =>
    recipeLenses(serving, at, verdict),
  );
  for (const chunk of at.library.chunks(at.key)) {
    for (const d of chunk.reading.declarations) {
      if (!counted.has(d.kind)) continue;
      const range = at.document.range({ start: chunk.base + d.name.start, end: chunk.base + d.name.end });
      lenses.push({ range, data: { uri: params.textDocument.uri, name: d.name.name } satisfies Kept });
    }
  }
  return lenses;
};

function recipeLenses(serving: Serving, at: InFile, verdict: RecipeVerdict): CodeLens[] {
  const { recipe, chunk, counted: standing, range: decided, shownAt } = verdict;
  const { uri } = at.document;
  const name = recipe.name.name;
  const range = at.document.range({ start: chunk.base + recipe.name.start, end: chunk.base + recipe.name.end });
  const lens = (title: string, command: string, ...values: unknown[]): CodeLens[] => {
    const has = serving.client.commands.has(command);
    return [{ range, command: has ? { title, command, arguments: values } : { title, command: "" } }];
  };
  // Without the command behind it such a line would do nothing.
  const action = (...[title, command, ...values]: Parameters<typeof lens>) =>
    serving.client.commands.has(command) ? lens(title, command, ...values) : [];
  return [
    ...(standing === "" ? [] : lens(standing, editorCommands.showFindings)),
    ...(decided === "" ? [] : lens(decided, shownAt === "" ? "" : editorCommands.openRun, uri, name, shownAt)),
    ...action("print", editorCommands.printSheet, uri, name, askedInputs(recipe)),
    ...action("compare with last commit", editorCommands.compareWithCommit, uri),
    ...action("approve", editorCommands.approve, uri, name),
  ];
}

/** What a sheet has to be told: inputs of the order that are a range. */
function askedInputs(recipe: RecipeVerdict["recipe"]): AskedInput[] {
  return inputRanges(recipe)
    .filter((r) => r.range.isRange)
    .map(({ input, range: { from, to } }) => ({ input, range: `${from.written} to ${to.written}` }));
}

export const codeLensResolve: Answer<CodeLens, CodeLens> = (serving, lens) => {
  if (lens.command) return lens;
  const { uri, name } = (lens.data ?? {}) as Partial<Kept>;
  const at = typeof uri === "string" ? inFile(serving, { uri }) : undefined;
  if (!at || typeof name !== "string") return { range: lens.range, command: { title: "", command: "" } };
  const found = occurrenceAt(at.library, at.key, at.document.offset(lens.range.start));
  const uses = found ? sameName(at.library, found).filter((o) => !o.declares) : [];
  const recipes = recipesUsing(at.library, name).length;
  const title = `used by ${times(recipes, "recipe")}, named in ${times(uses.length, "place")}`;
  const locations = uses.flatMap((o) => locationOf(serving, at.library, o.at) ?? []);
  // The editor's side shows the places; an editor without that command shows the line alone.
  const command: Command = serving.client.commands.has(editorCommands.showUses)
    ? { title, command: editorCommands.showUses, arguments: [at.document.uri, lens.range.start, locations] }
    : { title, command: "" };
  return { range: lens.range, command };
};

function times(count: number, word: string): string {
  return `${count === 0 ? "no" : count} ${word}${count === 1 ? "" : "s"}`;
}
