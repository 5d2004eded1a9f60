/** Draws the GS1 DataMatrix of a label. A bundle of its own, loaded only when a label carries a code. */
import { drawingSVG, gs1datamatrix } from "bwip-js/generic";

/**
 * An SVG element: square, one polygon path, black on nothing.
 * @param elementString with brackets, such as `(91)magnesium-4g`
 * @throws Error where the text breaks a rule of GS1 (the library checks identifiers and their partners)
 */
export function codeSvg(elementString: string): string {
  return String(gs1datamatrix({ bcid: "gs1datamatrix", text: elementString, scale: 2 }, drawingSVG()));
}
