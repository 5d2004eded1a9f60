/**
 * Keeps units whole in the PDF: pdfmake breaks a line behind the `/` of `mg/mL`, and no sign that joins is in its font. Every text of the
 * document is cut into pieces, and those that are one word may not be broken.
 */
import { pieces } from "../../language/sheet/escape.ts";

type Shape = { [key: string]: unknown };

/** Where a document holds nodes; anything else in a node is layout and stays as it is. */
const nodes = new Set(["stack", "columns", "ul", "ol", "table", "body"]);

/** The same nodes with every text in pieces. */
export function withWholeUnits(node: unknown): unknown {
  if (typeof node === "string") return isWhole(node) ? node : { text: inPieces(node, {}) };
  if (Array.isArray(node)) return node.map(withWholeUnits);
  if (typeof node !== "object" || node === null) return node;
  const shape = node as Shape;
  if ("text" in shape) return { ...shape, text: inPieces(shape.text, {}) };
  return Object.fromEntries(
    Object.entries(shape).map(([key, inner]) => [key, nodes.has(key) ? withWholeUnits(inner) : inner]),
  );
}

/** Pieces within pieces would lose the look of the outer one, so that each has it. */
function inPieces(text: unknown, look: Shape): unknown {
  if (typeof text === "string") {
    const plain = Object.keys(look).length === 0;
    if (isWhole(text)) return plain ? text : [{ ...look, text }];
    return pieces(text).map((piece) => ({ ...look, text: piece.text, ...(piece.isOneWord ? { noWrap: true } : {}) }));
  }
  if (!Array.isArray(text)) return text;
  return text.flatMap((part) => {
    if (typeof part === "string") return inPieces(part, look);
    const { text: inner, ...own } = part as Shape;
    return inPieces(inner, { ...look, ...own });
  });
}

function isWhole(text: string): boolean {
  return pieces(text).every(({ isOneWord }) => !isOneWord);
}
