/** Checks of structure: names, blocks, lines that cannot be read. */
import type { AnyCheck } from "../check.ts";
import { blockNotClosed } from "./block-not-closed.ts";
import { blockStatedTwice } from "./block-stated-twice.ts";
import { braceNotAtLineEnd } from "./brace-not-at-line-end.ts";
import { capitalLetters } from "./capital-letters.ts";
import { closingBraceNotAlone } from "./closing-brace-not-alone.ts";
import { declarationWithoutName } from "./declaration-without-name.ts";
import { declaredTwice } from "./declared-twice.ts";
import { deviationLapsed } from "./deviation-lapsed.ts";
import { deviationNotComplete } from "./deviation-not-complete.ts";
import { deviationUnknown } from "./deviation-unknown.ts";
import { factInWrongPlace } from "./fact-in-wrong-place.ts";
import { factMissing } from "./fact-missing.ts";
import { factNotUnderstood } from "./fact-not-understood.ts";
import { factStatedTwice } from "./fact-stated-twice.ts";
import { lineOutsideDeclaration } from "./line-outside-declaration.ts";
import { materialNamedTwice } from "./material-named-twice.ts";
import { materialNeverUsed } from "./material-never-used.ts";
import { recipeIncomplete } from "./recipe-incomplete.ts";
import { stepNotUnderstood } from "./step-not-understood.ts";
import { strayClosingBrace } from "./stray-closing-brace.ts";
import { strayContinuation } from "./stray-continuation.ts";
import { trailingWordsNotUnderstood } from "./trailing-words-not-understood.ts";
import { unknownBlock } from "./unknown-block.ts";
import { unknownDeclaration } from "./unknown-declaration.ts";
import { unknownFact } from "./unknown-fact.ts";
import { unknownName } from "./unknown-name.ts";
import { unknownThing } from "./unknown-thing.ts";
import { unknownVerb } from "./unknown-verb.ts";

export const structureChecks: readonly AnyCheck[] = [
  blockNotClosed,
  blockStatedTwice,
  braceNotAtLineEnd,
  capitalLetters,
  closingBraceNotAlone,
  declarationWithoutName,
  declaredTwice,
  deviationLapsed,
  deviationNotComplete,
  deviationUnknown,
  factInWrongPlace,
  factMissing,
  factNotUnderstood,
  factStatedTwice,
  lineOutsideDeclaration,
  materialNamedTwice,
  materialNeverUsed,
  recipeIncomplete,
  stepNotUnderstood,
  strayClosingBrace,
  strayContinuation,
  trailingWordsNotUnderstood,
  unknownBlock,
  unknownDeclaration,
  unknownFact,
  unknownName,
  unknownThing,
  unknownVerb,
];
