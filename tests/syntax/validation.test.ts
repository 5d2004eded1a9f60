/** What Chevrotain checks of the grammar and the patterns when it is let: here, once, and not at every start of a program. */
import { describe, expect, it } from "vitest";
import { ChunkParser } from "../../language/syntax/parser.ts";
import { newLexer } from "../../language/syntax/tokens.ts";

describe("Chevrotain's own validation", () => {
  it("finds no fault in the grammar", () => {
    expect(() => new ChunkParser(false)).not.toThrow();
  });

  it("finds no fault in the patterns", () => {
    expect(newLexer(false).lexerDefinitionErrors).toEqual([]);
  });
});
