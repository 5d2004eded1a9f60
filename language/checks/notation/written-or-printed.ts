/** Faults that are told of figures in lines and of printed words alike. */
import type { Repair, Said } from "../check.ts";
import { sayWritten, type WrittenFault, writeSafe } from "./figures.ts";
import { type PrintedFault, sayPrinted, writeOut } from "./printed-text.ts";

export function sayWrittenOrPrinted(found: WrittenFault | PrintedFault): Said {
  return isPrinted(found) ? sayPrinted(found) : sayWritten(found);
}

export function writeEither(found: WrittenFault | PrintedFault): readonly Repair[] {
  return isPrinted(found) ? writeOut(found) : writeSafe(found);
}

function isPrinted(found: WrittenFault | PrintedFault): found is PrintedFault {
  return "meanings" in found;
}
