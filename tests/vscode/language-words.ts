/** The language's own words for the grammar, gathered from where the language itself reads them. */
import type { GrammarWords } from "../../client/vscode/syntaxes/grammar.ts";
import { verbsByWord } from "../../language/bench/verbs/index.ts";
import { factTables } from "../../language/model/read-chunk.ts";
import { rowsBelowTheLine, unitRows } from "../../language/quantities/unit-table.ts";
import {
  claimWords,
  countWords,
  declarationWords,
  edgeWords,
  figureWords,
  glueWords,
  recipeBlocks,
  trailingWords,
  valueWords,
} from "../../language/syntax/words.ts";

const ownPattern = new Set(["steps", "materials", "deviation"]);

export function languageWords(): GrammarWords {
  const blocks = [...recipeBlocks, "stable", "reconstitute"].filter((word) => !ownPattern.has(word));
  return {
    declarations: declarationWords,
    blocks,
    facts: Object.values(factTables).flatMap((table) => Object.keys(table)),
    verbs: [...verbsByWord.keys()],
    glue: [...glueWords, ...edgeWords, ...figureWords, ...countWords],
    trailing: trailingWords,
    claims: claimWords,
    values: valueWords,
    units: [...unitRows, ...rowsBelowTheLine].flatMap((row) => [
      row.spelling,
      ...(row.also ?? []),
      ...(row.singular ? [row.singular] : []),
    ]),
  };
}
