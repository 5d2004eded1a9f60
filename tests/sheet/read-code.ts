/** Reads a DataMatrix back from its SVG: drawn into pixels here, decoded by a library that had no part in making it. */
import {
  BarcodeFormat,
  BinaryBitmap,
  DataMatrixReader,
  DecodeHintType,
  HybridBinarizer,
  RGBLuminanceSource,
} from "@zxing/library";

/** Brightness by even-odd filling of the path's polygons, `scale` pixels a unit, with a quiet zone. */
export function pixelsOf(svg: string, scale = 2, quiet = 20): { pixels: Uint8ClampedArray; size: number } {
  const side = Number(/viewBox="0 0 (\d+) \d+"/.exec(svg)?.[1]);
  const paths = [...svg.matchAll(/<path d="([^"]+)"/g)].map((m) => m[1]!).join("");
  const polygons = paths
    .split("M")
    .slice(1)
    .map((part) =>
      part
        .replace(/Z.*/s, "")
        .split("L")
        .map((point) => point.trim().split(/[ ,]+/).map(Number)),
    );
  const size = side * scale + 2 * quiet;
  const pixels = new Uint8ClampedArray(size * size).fill(255);
  for (let y = 0; y < side * scale; y++) {
    const at = (y + 0.5) / scale;
    const crossings = polygons.flatMap((points) => crossed(points, at)).sort((a, b) => a - b);
    for (let i = 0; i + 1 < crossings.length; i += 2) {
      for (let x = Math.round(crossings[i]! * scale); x < Math.round(crossings[i + 1]! * scale); x++) {
        pixels[(y + quiet) * size + x + quiet] = 0;
      }
    }
  }
  return { pixels, size };
}

function crossed(points: number[][], y: number): number[] {
  return points.flatMap(([x1, y1], i) => {
    const [x2, y2] = points[(i + 1) % points.length]!;
    if (y1! > y === y2! > y) return [];
    return [x1! + ((y - y1!) / (y2! - y1!)) * (x2! - x1!)];
  });
}

/** The text as a scanner passes it on: elements parted by the group separator, without brackets. */
export function readCode(svg: string): string {
  const { pixels, size } = pixelsOf(svg);
  const source = new RGBLuminanceSource(pixels, size, size);
  const hints = new Map<DecodeHintType, unknown>([
    [DecodeHintType.POSSIBLE_FORMATS, [BarcodeFormat.DATA_MATRIX]],
    [DecodeHintType.TRY_HARDER, true],
  ]);
  return new DataMatrixReader().decode(new BinaryBitmap(new HybridBinarizer(source)), hints).getText();
}
