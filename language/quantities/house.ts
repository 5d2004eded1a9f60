/** What a site decides about notation where the published lists disagree. */
import type { ThousandsStyle } from "./number-text.ts";

export interface HouseStyle {
  /** ISMP and the Joint Commission write `mcg`; UK, Australian and WHO texts write the word in full. */
  microgram: "mcg" | "micrograms";
  /** ISMP: the word units is enough. Joint Commission: International Unit is written out. */
  activity: "units" | "international units";
  /** ISMP: comma from 1,000. Canadian teaching: a gap. Australia: words. */
  thousands: ThousandsStyle;
  millilitre: "mL";
  /** How printed text joins a strength: `10 mg/mL` (labels, UCUM) or `10 mg per mL` (screen guidance). Recipes always take both. */
  strengthSlash: "allowed" | "words";
  /** UK: below one, move to the smaller unit. A recipe that must match a label may need the decimal, hence not the default. */
  smallDecimals: "allowed" | "smaller-unit";
  /** Scottish palliative care: at most one decimal place where possible. Clinical advice about doses, hence not the default. */
  decimals: "any" | "one-place";
}

export const defaultHouse: HouseStyle = {
  microgram: "mcg",
  activity: "units",
  thousands: "comma",
  millilitre: "mL",
  strengthSlash: "allowed",
  smallDecimals: "allowed",
  decimals: "any",
};
