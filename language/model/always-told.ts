/**
 * Findings which say that something that was written is not read, or that the steps cannot be followed to their end. A site may not
 * grade them otherwise or switch them off, and no deviation silences them: what they speak of is checked by nobody else, and a
 * recipe that was read in part would look clean.
 */
export const alwaysTold: ReadonlySet<string> = new Set([
  // figures without a value
  "number-with-two-readings",
  "thousand-as-k",
  "million-as-m",
  "figure-below-slash",
  "strength-percent-without-kind",
  "customary-unit",
  "microunits",
  "unknown-unit",
  "unit-missing",
  "expiry-not-a-date",
  // lines and blocks that are not used
  "unknown-fact",
  "fact-in-wrong-place",
  "fact-not-understood",
  "fact-stated-twice",
  "trailing-words-not-understood",
  "unknown-block",
  "block-stated-twice",
  "unknown-declaration",
  "declaration-without-name",
  "declared-twice",
  "line-outside-declaration",
  "block-not-closed",
  "brace-missing",
  "head-missing",
  "head-of-another-block",
  "stray-closing-brace",
  "stray-opening-brace",
  "stray-continuation",
  "text-too-long",
  "inventory-row-not-used",
  // steps that cannot be followed
  "unknown-verb",
  "step-not-understood",
  "unknown-name",
  "unknown-thing",
  "wrong-kind-of-thing",
  "material-named-twice",
  "wrong-dimension",
  "amount-not-computable",
  "figure-not-known",
  "recipe-incomplete",
  "not-each-of",
  "reconstituted-no-powder",
]);
