/** Checks of structure: names, blocks, lines that cannot be read. */
import type { AnyCheck } from "../check.ts";
import { blockNotClosed } from "./block-not-closed.ts";
import { blockStatedTwice } from "./block-stated-twice.ts";
import { braceMissing } from "./brace-missing.ts";
import { braceNotAtLineEnd } from "./brace-not-at-line-end.ts";
import { capitalLetters } from "./capital-letters.ts";
import { closingBraceNotAlone } from "./closing-brace-not-alone.ts";
import { conditionNotFollowed } from "./condition-not-followed.ts";
import { conditionNotJudged } from "./condition-not-judged.ts";
import { conditionWordUnknown } from "./condition-word-unknown.ts";
import { countNotWhole } from "./count-not-whole.ts";
import { declarationWithoutName } from "./declaration-without-name.ts";
import { declaredTwice } from "./declared-twice.ts";
import { deviationLapsed } from "./deviation-lapsed.ts";
import { deviationNotAllowed } from "./deviation-not-allowed.ts";
import { deviationNotComplete } from "./deviation-not-complete.ts";
import { deviationUnknown } from "./deviation-unknown.ts";
import { deviationUnused } from "./deviation-unused.ts";
import { factInWrongPlace } from "./fact-in-wrong-place.ts";
import { factMissing } from "./fact-missing.ts";
import { factNotUnderstood } from "./fact-not-understood.ts";
import { factStatedTwice } from "./fact-stated-twice.ts";
import { findingNameUnknown } from "./finding-name-unknown.ts";
import { headMissing } from "./head-missing.ts";
import { headOfAnotherBlock } from "./head-of-another-block.ts";
import { lineOutsideDeclaration } from "./line-outside-declaration.ts";
import { materialNamedTwice } from "./material-named-twice.ts";
import { materialNeverUsed } from "./material-never-used.ts";
import { nameContradictsFacts } from "./name-contradicts-facts.ts";
import { namesLookAlike } from "./names-look-alike.ts";
import { neverHappens } from "./never-happens.ts";
import { orderRowDoesNotHold } from "./order-row-does-not-hold.ts";
import { orderedContainerNotFinished } from "./ordered-container-not-finished.ts";
import { rangeEndBetweenSteps } from "./range-end-between-steps.ts";
import { rangeNotDecided } from "./range-not-decided.ts";
import { rangeWithoutOrder } from "./range-without-order.ts";
import { recipeIncomplete } from "./recipe-incomplete.ts";
import { revisionInRecipe } from "./revision-in-recipe.ts";
import { roleUnknown } from "./role-unknown.ts";
import { severityNotAllowed } from "./severity-not-allowed.ts";
import { severityWithoutReason } from "./severity-without-reason.ts";
import { stepNotUnderstood } from "./step-not-understood.ts";
import { strayClosingBrace } from "./stray-closing-brace.ts";
import { strayContinuation } from "./stray-continuation.ts";
import { strayOpeningBrace } from "./stray-opening-brace.ts";
import { textTooLong } from "./text-too-long.ts";
import { trailingWordsNotUnderstood } from "./trailing-words-not-understood.ts";
import { unknownBlock } from "./unknown-block.ts";
import { unknownDeclaration } from "./unknown-declaration.ts";
import { unknownFact } from "./unknown-fact.ts";
import { unknownName } from "./unknown-name.ts";
import { unknownThing } from "./unknown-thing.ts";
import { unknownVerb } from "./unknown-verb.ts";

import { wordMisspelt } from "./word-misspelt.ts";

export const structureChecks: readonly AnyCheck[] = [
  blockNotClosed,
  blockStatedTwice,
  braceMissing,
  braceNotAtLineEnd,
  capitalLetters,
  closingBraceNotAlone,
  declarationWithoutName,
  declaredTwice,
  deviationLapsed,
  deviationNotAllowed,
  deviationNotComplete,
  deviationUnknown,
  deviationUnused,
  factInWrongPlace,
  factMissing,
  factNotUnderstood,
  factStatedTwice,
  findingNameUnknown,
  headMissing,
  headOfAnotherBlock,
  lineOutsideDeclaration,
  materialNamedTwice,
  materialNeverUsed,
  nameContradictsFacts,
  namesLookAlike,
  recipeIncomplete,
  revisionInRecipe,
  roleUnknown,
  severityNotAllowed,
  severityWithoutReason,
  stepNotUnderstood,
  strayClosingBrace,
  strayContinuation,
  strayOpeningBrace,
  textTooLong,
  trailingWordsNotUnderstood,
  unknownBlock,
  unknownDeclaration,
  unknownFact,
  unknownName,
  unknownThing,
  unknownVerb,
  wordMisspelt,
  orderRowDoesNotHold,
  neverHappens,
  rangeEndBetweenSteps,
  rangeNotDecided,
  rangeWithoutOrder,
  orderedContainerNotFinished,
  conditionNotFollowed,
  conditionNotJudged,
  conditionWordUnknown,
  countNotWhole,
];
