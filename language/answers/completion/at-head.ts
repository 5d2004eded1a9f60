/** The head of a declaration or of a block: its word, then its name. */
import { looseWord } from "../../model/form-match.ts";
import { declarationWords } from "../../syntax/words.ts";
import { type Asked, names, put } from "./asked.ts";

export function atHead(asked: Asked, stem: string): void {
  const { row, library, place } = asked;
  const first = looseWord(row.before[0]);
  if (row.before.length === 0) {
    const wholeLine = place.headOf === undefined;
    const fitting = /^[A-Za-z][A-Za-z0-9.-]*$/.test(stem) && library.declared(stem).length === 0;
    if (fitting && wholeLine) put(asked, `recipe ${stem} {`, "line", { insert: `recipe ${stem} {\n  $0\n}` });
    for (const word of declarationWords) {
      const name = word === "site" ? "" : " $0";
      put(asked, word, "declaration", { insert: wholeLine ? `${word}${name} {\n  ${name ? "" : "$0"}\n}` : word });
    }
    return;
  }
  if (row.before.length !== 1 || first === undefined) return;
  if (first === "lots")
    for (const name of names(asked, { kinds: ["stock"] })) put(asked, name, "name", { about: name });
  else if (first === "preparation" || first === "intermediate") materialNames(asked, first);
  else if ((declarationWords as readonly string[]).includes(first) && stem) put(asked, stem, "name");
}

function materialNames(asked: Asked, word: string): void {
  for (const name of names(asked, { material: true, verb: word, slot: "target" })) put(asked, name, "name");
}
