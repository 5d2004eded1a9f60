/** Element strings that must not be read, and what is said. Application identifiers: GS1 Application Identifiers list. */
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { readElementString } from "../../language/model/gs1.ts";
import { checkDigit, readGtin } from "../../language/model/gtin.ts";

const GS = "\u001d";
const read = (text: string) => readElementString(text, { currentYear: 2026 });

describe("what is not read", () => {
  it.each([
    ["", "empty"],
    ["]d2", "empty"],
    ["]d10106291041500213", "not-gs1"],
    ["]E06291041500213", "not-gs1"],
    ["6291041500213", "unknown-element"],
    ["0106291041500213ZZ9", "unknown-element"],
    ["9912345", "unknown-element"],
    ["1726123", "too-short"],
    [`1726${GS}1231`, "too-short"],
    ["17261231010629104150021", "too-short"],
    ["172612AB10A", "other-characters"],
    ["10A B", "other-characters"],
    ["10Aµ", "other-characters"],
    [`10${GS}17261231`, "empty-element"],
    ["1726123110A<GS>21B", "separator-written-out"],
    ["10A␝17261231", "separator-written-out"],
    [`10A${GS}10B`, "stated-twice"],
    ["1726123117261230", "stated-twice"],
    ["1726123170032612301200", "stated-twice"],
    ["0106291041500214", "gtin"],
    ["17261301", "date"],
    ["11260230", "date"],
    ["70032612312400", "date"],
    ["70032612002300", "date"],
    ["(01)06291041500213(10)A(B", "brackets"],
    ["(see pack)(17)261231", "brackets"],
    ["(01)06291041500213(99)A", "unknown-element"],
  ])("%j: %s", (text, kind) => {
    const reading = read(text);
    expect(reading.faults.map((f) => f.kind)).toEqual([kind]);
    expect([reading.lot, reading.expiry, reading.gtin]).toEqual([undefined, undefined, undefined]);
    for (const fault of reading.faults) {
      expect(fault.start).toBeLessThanOrEqual(fault.end);
      expect(fault.end).toBeLessThanOrEqual(text.length);
      expect(fault.message).not.toMatch(/invalid/i);
    }
  });

  it("points at the element in doubt", () => {
    const text = `0106291041500213172602301${"0A"}`;
    const [fault] = read(text).faults;
    expect(text.slice(fault?.start, fault?.end)).toBe("260230");
    expect(fault?.message).toBe("The expiry (17): 260230: February 2026 ends on the 28th. Correct the day.");
  });

  it("says when a lot may have swallowed the expiry", () => {
    const reading = read("010629104150021310A117270228");
    expect(reading.lot).toBe("A117270228");
    expect(reading.notices.map((n) => n.kind)).toEqual(["no-expiry", "separator-lost"]);
  });

  it("keeps a lot's own brackets in a scan", () => {
    expect(read("1726123110A(17)B").lot).toBe("A(17)B");
  });
});

describe("any text", () => {
  it("is never thrown over, and a fault leaves nothing to be used", () => {
    const piece = fc.constantFrom(
      "01",
      "10",
      "17",
      "21",
      "7003",
      "(",
      ")",
      GS,
      "06291041500213",
      "261231",
      "A",
      "0",
      "]d2",
    );
    const texts = fc.oneof(
      fc.string(),
      fc.array(piece).map((parts) => parts.join("")),
    );
    fc.assert(
      fc.property(texts, (text) => {
        const reading = read(text);
        const used = [reading.lot, reading.expiry, reading.gtin, reading.serial].some((v) => v !== undefined);
        if (reading.faults.length > 0 && used) return false;
        if (reading.faults.length === 0 && reading.elements.length === 0) return false;
        return reading.elements.every((e) => text.slice(e.start, e.end) === e.value);
      }),
    );
  });

  it("gives back any lot, in every order of elements", () => {
    const sign = fc.constantFrom(...`!"%&'*+,-./0123456789:;<=>?ABCXYZ_abcxyz`);
    const lots = fc.array(sign, { minLength: 1, maxLength: 20 }).map((s) => s.join(""));
    fc.assert(
      fc.property(lots, fc.boolean(), (lot, lotFirst) => {
        fc.pre(!/<GS>/i.test(lot));
        const text = lotFirst ? `10${lot}${GS}17261231` : `1726123110${lot}`;
        const reading = read(text);
        return reading.lot === lot && reading.expiry?.lastDay.day === 31;
      }),
    );
  });
});

describe("pack numbers", () => {
  it.each([
    ["", "not-digits"],
    ["5012345 678900", "not-digits"],
    ["5.01235E+12", "spreadsheet-number"],
    ["501234567891", "check-digit"],
    ["12345", "other-length"],
    ["00000000000000", "all-zeros"],
  ])("%j: %s", (text, fault) => expect(readGtin(text)).toMatchObject({ fault }));

  it("notices any one digit that is wrong, and pads without changing the check digit", () => {
    const body = fc
      .constantFrom(7, 11, 12, 13)
      .chain((n) => fc.array(fc.integer({ min: 0, max: 9 }), { minLength: n, maxLength: n }));
    fc.assert(
      fc.property(body, fc.nat(), fc.integer({ min: 1, max: 9 }), (digits, where, by) => {
        const text = digits.join("");
        fc.pre(!/^0+$/.test(text));
        const whole = text + checkDigit(text);
        const padded = whole.padStart(14, "0");
        expect(readGtin(whole)).toEqual({ text: whole, gtin14: padded, level: Number(padded[0]) });
        expect(readGtin(padded)).toMatchObject({ gtin14: padded });
        const at = where % whole.length;
        const wrong = whole.slice(0, at) + ((Number(whole[at]) + by) % 10) + whole.slice(at + 1);
        expect(readGtin(wrong)).toHaveProperty("fault");
      }),
    );
  });
});
