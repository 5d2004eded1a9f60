/** An inventory export that is open beside a library; read again when the site reads months otherwise, or the year turns. */
import { readInventory } from "./inventory.ts";
import type { InventoryReading } from "./inventory-reading.ts";
import type { LotOnShelf } from "./lookup.ts";
import type { Policy } from "./policy.ts";

export class InventoryFile {
  private read: { key: string; reading: InventoryReading } | undefined;

  constructor(
    readonly file: string,
    readonly text: string,
  ) {}

  /** @param currentYear four digits, for the two-digit years of barcodes */
  reading(currentYear: number, monthOnly: Policy["monthOnly"]): InventoryReading {
    const key = `${currentYear} ${monthOnly}`;
    if (this.read?.key !== key) {
      this.read = { key, reading: readInventory(this.text, this.file, { currentYear, monthOnly }) };
    }
    return this.read.reading;
  }

  lots(currentYear: number, monthOnly: Policy["monthOnly"]): LotOnShelf[] {
    const { file } = this;
    return this.reading(currentYear, monthOnly).lots.map(({ stock, lot, expires, start, end }) => ({
      stock,
      lot,
      expires,
      place: undefined,
      inventory: { file, start, end },
    }));
  }
}
