/** Two rows of one fact of which one holds for everybody are told once, where the second stands: common practice. */
import { describe, expect, it } from "vitest";
import { example } from "../../language/checks/example.ts";
import { findingsOf } from "./findings-of.ts";

const ranged: [string, string] = [
  "    infuse-over     4 h\n",
  "    infuse-over     4 h\n    weight          20 kg to 60 kg\n",
];
const stated = "    concentration  37.04 mg/mL\n";
const volumes = (...rows: string[]) =>
  findingsOf(example(ranged, [stated, `${stated}${rows.map((row) => `    volume  ${row}\n`).join("")}`]))
    .filter(({ name }) => name !== "patient-figure-not-used")
    .map(({ name, message }) => `${name}: ${message}`);

describe("volumes of a preparation", () => {
  it("one for everybody and one for some", () => {
    const told = [
      "fact-stated-twice: `volume` is stated 2 times in preparation, and one holds for everybody. Keep one, or write behind each with `when` for whom it holds.",
    ];
    expect(volumes("108 mL", "108 mL when weight from 40 kg")).toEqual(told);
    expect(volumes("108 mL when weight from 40 kg", "108 mL")).toEqual(told);
  });

  it("two for some that overlap", () => {
    expect(volumes("108 mL when weight up to 40 kg", "108 mL when weight from 30 kg")).toEqual([
      expect.stringMatching(/^order-row-does-not-hold: For weight 30 kg .* 2 rows of `volume` hold/),
    ]);
  });

  it("two for some that do not", () => {
    expect(volumes("108 mL when weight up to 40 kg", "108 mL when weight above 40 kg")).toEqual([]);
  });

  it("two for everybody", () => {
    expect(volumes("108 mL", "108 mL")).toEqual([
      "fact-stated-twice: `volume` is stated 2 times in preparation. Keep one.",
    ]);
  });
});

it("a fact of the order is told once too", () => {
  const rows: [string, string] = [
    "    infuse-over     4 h\n",
    "    infuse-over     4 h\n    infuse-over     4 h when weight from 40 kg\n    weight          20 kg to 60 kg\n",
  ];
  expect(findingsOf(example(rows)).map(({ name }) => name)).toEqual(["fact-stated-twice"]);
});
