/** Element strings printed on public pages of medicine packs. The lot of the first is not printed on its page and is invented here. */
import { describe, expect, it } from "vitest";
import { readElementString } from "../../language/model/gs1.ts";

const rows = [
  {
    // wiesmann.codiferes.net/wordpress/archives/35633: a pack of ibuprofen suspension, serial number ended by a separator.
    scanned: "0107680669330019211003037624 4896\u001d1725113010KQ1".replace(" ", ""),
    gtin: "07680669330019",
    serial: "10030376244896",
    lot: "KQ1",
    last: "2025-11-30",
  },
  {
    // tracehub.1dts.com, knowledge base, GS1 DataMatrix barcodes for pharmaceuticals: the human readable form.
    scanned: "(01)00614141123452(21)ABC123(10)LOT456(17)251231",
    gtin: "00614141123452",
    serial: "ABC123",
    lot: "LOT456",
    last: "2025-12-31",
  },
];

describe("scans of printed packs", () => {
  it.each(rows)("$scanned", ({ scanned, gtin, serial, lot, last }) => {
    const reading = readElementString(scanned, { currentYear: 2026 });
    const { year, month, day } = reading.expiry!.lastDay;
    expect(reading.faults).toEqual([]);
    expect([reading.gtin?.gtin14, reading.serial, reading.lot]).toEqual([gtin, serial, lot]);
    expect([year, month, day]).toEqual(last.split("-").map(Number));
    // One figure of the article number wrong: nothing of the scan is taken.
    const wrong = readElementString(scanned.replace(gtin, `${gtin.slice(0, -1)}${(Number(gtin.at(-1)) + 1) % 10}`), {
      currentYear: 2026,
    });
    expect([wrong.gtin, wrong.lot, wrong.expiry]).toEqual([undefined, undefined, undefined]);
  });
});
