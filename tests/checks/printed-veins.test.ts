/**
 * The vein in titles and on label lines. Hospitals keep a weak noradrenaline for peripheral veins beside a strong one for central lines (common
 * practice; 16 mcg/mL and 160 mcg/mL in the list of the Intensive Care Society, studylib.net/doc/25206615), so that the word tells
 * two bags apart. The samples: noradrenaline 160 mcg/mL by a central line, magnesium sulfate by a peripheral vein.
 */
import { describe, expect, it } from "vitest";
import { label, title } from "./printed-on-samples.ts";

const noradrenaline = "noradrenaline-8mg-syringe";

describe("another vein than the ordered one", () => {
  it.each([
    ["Noradrenaline 8 mg in glucose 5 %, peripheral line", "peripheral line"],
    ["Noradrenaline (peripheral) 8 mg in glucose 5 %", "peripheral"],
    ["Noradrenaline 8 mg, peripheral", "peripheral"],
    ["Noradrenaline 8 mg in glucose 5 %, for peripheral infusion", "peripheral infusion"],
  ])("in the title %s", (words, said) => {
    expect(title(noradrenaline, words)).toEqual([`${said}; the order says central`]);
  });

  it.each(["Peripheral only", "Peripheral", "PERIPHERAL LINE", "Give by peripheral infusion"])(
    "on a label: %s",
    (line) => {
      expect(label(noradrenaline, line)).toEqual([expect.stringMatching(/^peripheral.*; the order says central$/i)]);
      expect(label("magnesium-4g", line)).toEqual([]);
    },
  );

  it.each(["Central line only", "Central", "Intravenous (central)"])("on a label: %s", (line) => {
    expect(label("magnesium-4g", line)).toEqual([expect.stringMatching(/^central.*; the order says peripheral$/i)]);
    expect(label(noradrenaline, line)).toEqual([]);
  });

  it.each([
    "Noradrenaline 8 mg in glucose 5 %, central line",
    "Noradrenaline 8 mg in glucose 5 %, not for peripheral use",
    "Noradrenaline 8 mg, central or peripheral line",
    "Noradrenaline 8 mg, prepared by Central Pharmacy",
    "Noradrenaline 8 mg in glucose 5 %, watch peripheral perfusion",
  ])("is not meant by %s", (words) => {
    expect(title(noradrenaline, words)).toEqual([]);
  });
});
