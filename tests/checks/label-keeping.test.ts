/**
 * Where and how long titles, label lines and notes have a preparation kept, and whether from light. Of the sample library: magnesium sulfate is
 * kept 24 h at room temperature, ceftriaxone 2 days there or 10 days in a refrigerator, nitroprusside is kept from light always (monographs
 * of the sample library). 2 to 8 °C is a refrigerator, up to 25 °C a room (customary degrees, from memory).
 */
import { describe, expect, it } from "vitest";
import { example } from "../../language/checks/example.ts";
import { findingsOf } from "./findings-of.ts";
import { areSilent, areTold } from "./sayings.ts";

const bag = "magnesium-4g";
const either = "ceftriaxone-500mg";
const dark = "nitroprusside-50mg";

describe("another place", () => {
  areTold(bag, [
    ["Store in refrigerator", "refrigerator", "preparation says use-within at room-temperature"],
    "Refrigerate",
    ["Keep at 2 to 8 °C", "2 to 8 °C"],
    ["Store at 2-8 C", "2-8 C"],
    ["Keep frozen", "frozen"],
    ["Store in a refrigerator, do not freeze", "refrigerator"],
    ["Refrigerate, do not freeze", "Refrigerate"],
    ["Store at 2 °C to 8 °C, do not freeze", "2 °C to 8 °C"],
    ["Keep in the fridge and do not freeze", "fridge"],
    ["Beyond-use: 12 h refrigerated", "12 h refrigerated"],
    ["Stable for 24 h at room temperature or 7 days refrigerated", "7 days refrigerated"],
    ["note: Store in the refrigerator", "refrigerator"],
    [
      "title: Magnesium sulfate 4 g in sodium chloride 0.9 % 100 mL, refrigerated",
      "refrigerated",
      "preparation says use-within",
    ],
  ]);
  areTold(either, [
    ["Do not refrigerate", "not refrigerate"],
    ["Store in the freezer", "freezer"],
  ]);
  areSilent(bag, [
    "Do not refrigerate",
    "Do not keep in the refrigerator",
    "Do not freeze",
    "Store at room temperature",
    "Store below 25 °C",
    "Store at 15 °C to 25 °C",
    "Store at 20 °C to 25 °C, do not refrigerate",
    "Do not refrigerate, do not freeze",
    "Do not refrigerate, freeze or shake",
    "Not to be kept, even for a short time, in the refrigerator",
    "Never store in the refrigerator or freezer",
    "Store at room temperature, do not keep in the fridge",
    "Keep up to 24 h below 25 °C",
    "Keep vials in the refrigerator",
    "If refrigerated, warm to room temperature",
    "Keep out of reach of children",
    "Infuse at room temperature over 4 h",
  ]);
  areSilent(either, [
    "Store in refrigerator",
    "Store at room temperature",
    "Keep in the fridge, let it warm up before use",
  ]);

  const cold = (line: string) =>
    findingsOf(
      example(
        ["use-within     24 h at room-temperature", "use-within     24 h at refrigerator"],
        ["    at             room-temperature\n", "    at             refrigerator\n"],
        ["  preparation bag {", `  label-text {\n    line  "${line}"\n  }\n\n  preparation bag {`],
      ),
    ).filter(({ name }) => name === "label-text-contradicts-order");
  it.each(["Store at room temperature", "Keep below 25 °C", "Do not refrigerate", "Never put in the fridge"])(
    "%s on what is kept cold is told",
    (line) => expect(cold(line)).toHaveLength(1),
  );
  it.each([
    "Store in a refrigerator",
    "Store at 2 to 8 °C",
    "Let it reach room temperature before use",
    "Take out of the refrigerator 1 h before use",
    "Use within 4 h at room temperature",
  ])("%s there is right", (line) => expect(cold(line)).toEqual([]));
});

describe("a longer life", () => {
  areTold(bag, [
    ["Use within 48 hours", "48 hours", "preparation says use-within 24 h"],
    ["Stable for 7 days", "7 days"],
    ["Expires 48 h after preparation", "48 h"],
    ["Expiry: 7 days", "7 days"],
    ["BUD 7 days", "7 days"],
    ["Shelf life 7 days", "7 days"],
    ["Valid for 7 days", "7 days"],
    ["Keep for up to 48 h", "48 h"],
    ["May be kept 48 hours at room temperature", "48 hours at room temperature"],
    ["Use within 1 week", "1 week"],
    ["Use within two days", "two days"],
    ["note: Use within 7 days", "7 days"],
    ["title: Magnesium sulfate 4 g in sodium chloride 0.9 % 100 mL, 7-day expiry", "7-day"],
  ]);
  areTold(either, [
    ["Use within 10 days at room temperature", "10 days at room temperature", "preparation says use-within 2 days"],
    ["Stable for 10 days below 25 °C", "10 days below 25 °C"],
    ["10 days at room temperature", "10 days at room temperature"],
    ["Stable for 2 days at room temperature or 14 days refrigerated", "14 days refrigerated"],
  ]);
  areTold(bag, [["Discard after 24-48 h", "24-48 h"]]);
  areSilent(bag, [
    "Use within 12-24 h",
    "Use within 24 hours",
    "Discard 24 h after preparation",
    "Expires 24 h after mixing",
    "Use immediately",
    "Start within 1 h",
    "Change set after 72 h",
    "Valid for one patient",
    "note: Vials once opened: use within 28 days",
  ]);
  areSilent(either, [
    "Use within 10 days",
    "Use within 10 days in the refrigerator",
    "24 h at room temperature, 10 days refrigerated",
    "Stable for 2 days at room temperature or 10 days refrigerated",
  ]);
});

describe("light", () => {
  areTold(dark, [
    "Protection from light not required",
    "No protection from light needed",
    "No need to protect from light",
    "Does not need to be protected from light",
    "Not light sensitive",
    "Keep in daylight",
  ]);
  areSilent(dark, [
    "Protect from light",
    "Do not keep in the light",
    "Protect vials from light",
    "Not without its cover",
  ]);
  areSilent("furosemide-200mg", ["Light protection not needed while it runs"]);
  areSilent(bag, ["Protect from light", "Protection from light not needed"]);
});
