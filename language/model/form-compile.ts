/** Turns a form's text into linked nodes; each node knows what follows it, so that matching is a plain walk. */

export type FormNode =
  | { kind: "end" }
  /** `expected`: what a line that stops here is told to be missing. */
  | { kind: "word"; word: string; expected: string; next: FormNode }
  /** Phrases and `expected` are of choices; the other types have none. */
  | { kind: "slot"; slot: string; type: string; choices: readonly string[][]; expected: string; next: FormNode }
  | { kind: "optional"; inner: FormNode; slots: string[]; next: FormNode }
  | { kind: "either"; ways: FormNode[]; slots: string[] };

type Piece =
  | { kind: "word"; word: string }
  | { kind: "slot"; slot: string; type: string }
  | { kind: "optional"; inner: Piece[] }
  | { kind: "either"; ways: Piece[][] };

/** Types of slots; any other is a choice of words. */
export const slotTypes: ReadonlySet<string> = new Set([
  "name",
  "names",
  "measure",
  "strength",
  "range",
  "number",
  "text",
  "date",
  "bound",
  "condition",
  "source",
]);

/** @throws Error on a badly written form: forms are ours, so this is a fault of the program, found when it starts. */
export function compileForm(text: string): FormNode {
  const parts = text.match(/<[^>]+>|[[\]()|]|[^\s[\]()|<>]+/g) ?? [];
  let at = 0;
  const readSequence = (until: string[]): Piece[] => {
    const pieces: Piece[] = [];
    while (at < parts.length && !until.includes(parts[at]!)) {
      const part = parts[at++]!;
      if (part === "[") {
        const inner = readSequence(["]"]);
        at++;
        pieces.push({ kind: "optional", inner });
      } else if (part === "(") {
        const ways = [readSequence(["|", ")"])];
        while (parts[at] === "|") {
          at++;
          ways.push(readSequence(["|", ")"]));
        }
        at++;
        pieces.push({ kind: "either", ways });
      } else if (part.startsWith("<")) {
        const colon = part.indexOf(":");
        if (colon < 0) throw new Error(`form slot without a type: ${part} in "${text}"`);
        pieces.push({ kind: "slot", slot: part.slice(1, colon).replace("?", ""), type: part.slice(colon + 1, -1) });
      } else {
        pieces.push({ kind: "word", word: part });
      }
    }
    return pieces;
  };
  const pieces = readSequence([]);
  if (at < parts.length) throw new Error(`form not closed: "${text}"`);
  return link(pieces, { kind: "end" });
}

function link(pieces: Piece[], after: FormNode): FormNode {
  let next = after;
  for (let i = pieces.length - 1; i >= 0; i--) next = linkOne(pieces[i]!, next);
  return next;
}

function linkOne(piece: Piece, next: FormNode): FormNode {
  switch (piece.kind) {
    case "word":
      return { kind: "word", word: piece.word, expected: `\`${piece.word}\``, next };
    case "slot": {
      const phrases = slotTypes.has(piece.type) ? [] : piece.type.split("|");
      return {
        kind: "slot",
        slot: piece.slot,
        type: phrases.length > 0 ? "choice" : piece.type,
        choices: phrases.map((phrase) => phrase.split(" ")),
        expected: phrases.map((phrase) => `\`${phrase}\``).join(", "),
        next,
      };
    }
    case "optional":
      return { kind: "optional", inner: link(piece.inner, next), slots: slotsIn(piece.inner), next };
    case "either":
      return { kind: "either", ways: piece.ways.map((way) => link(way, next)), slots: piece.ways.flatMap(slotsIn) };
  }
}

function slotsIn(pieces: Piece[]): string[] {
  return pieces.flatMap((piece) => {
    if (piece.kind === "slot") return [piece.slot];
    if (piece.kind === "optional") return slotsIn(piece.inner);
    if (piece.kind === "either") return piece.ways.flatMap(slotsIn);
    return [];
  });
}
