/** Routes as they stand in the lines of a chunk: behind `route`, and behind a drug's `never`. */
import type { ChunkReading } from "../../model/declaration.ts";
import type { Token } from "../../syntax/tree.ts";
import { linesOf } from "./figures.ts";

export interface WrittenRoute {
  token: Token;
  isBan: boolean;
}

export function* writtenRoutes(reading: ChunkReading): Iterable<WrittenRoute> {
  for (const { tokens } of linesOf(reading)) {
    for (let i = 1; i < tokens.length; i++) {
      const token = tokens[i]!;
      const before = tokens[i - 1]!.text;
      const isBan = before === "never" && i === 1;
      if (token.kind === "word" && (isBan || before === "route")) yield { token, isBan };
    }
  }
}
