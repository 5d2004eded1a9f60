import fc from "fast-check";
import { expect, test } from "vitest";
import { declaresSite } from "../../language/syntax/declares-site.ts";

const pieces = fc.constantFrom(
  "site",
  "s",
  "site{",
  "\n",
  "\r\n",
  "\uFEFF",
  " ",
  "_",
  "\u2028",
  "é",
  "4",
  "opposite",
  "site ",
);

test("finds the word just where the pattern does", () => {
  fc.assert(
    fc.property(fc.array(pieces, { maxLength: 8 }), (parts) => {
      const text = parts.join("");
      expect(declaresSite(text)).toBe(/^\uFEFF?site\b/m.test(text));
    }),
    { numRuns: 2000 },
  );
});
