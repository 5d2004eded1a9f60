/** Checks of notation: how figures, units, dates and printed words are written. */
import type { AnyCheck } from "../check.ts";
import { abbreviatedDrugName } from "./abbreviated-drug-name.ts";
import { customaryUnit } from "./customary-unit.ts";
import { dateNotIso } from "./date-not-iso.ts";
import { figureBelowSlash } from "./figure-below-slash.ts";
import { foreignLetter } from "./foreign-letter.ts";
import { fraction } from "./fraction.ts";
import { frequencyAbbreviated } from "./frequency-abbreviated.ts";
import { instructionAbbreviated } from "./instruction-abbreviated.ts";
import { internationalUnitsAsIu } from "./international-units-as-iu.ts";
import { litreAsSmallL } from "./litre-as-small-l.ts";
import { manyDecimals } from "./many-decimals.ts";
import { microSign } from "./micro-sign.ts";
import { microgramsShortened } from "./micrograms-shortened.ts";
import { microunits } from "./microunits.ts";
import { millilitresAsCc } from "./millilitres-as-cc.ts";
import { millionAsM } from "./million-as-m.ts";
import { morphineOrMagnesium } from "./morphine-or-magnesium.ts";
import { nakedDecimal } from "./naked-decimal.ts";
import { nameRunIntoDose } from "./name-run-into-dose.ts";
import { nanogramsAsNg } from "./nanograms-as-ng.ts";
import { numberWithTwoReadings } from "./number-with-two-readings.ts";
import { pluralUnit } from "./plural-unit.ts";
import { powerOfTen } from "./power-of-ten.ts";
import { quotesNotStraight } from "./quotes-not-straight.ts";
import { rangeWithHyphen } from "./range-with-hyphen.ts";
import { ratioStrength } from "./ratio-strength.ts";
import { romanNumeral } from "./roman-numeral.ts";
import { routeAbbreviated } from "./route-abbreviated.ts";
import { routeNotInFull } from "./route-not-in-full.ts";
import { signForWord } from "./sign-for-word.ts";
import { smallDecimal } from "./small-decimal.ts";
import { textNotClosed } from "./text-not-closed.ts";
import { thousandAsK } from "./thousand-as-k.ts";
import { thousandsByComma } from "./thousands-by-comma.ts";
import { thousandsNotGrouped } from "./thousands-not-grouped.ts";
import { thousandsNotInWords } from "./thousands-not-in-words.ts";
import { timeAsFraction } from "./time-as-fraction.ts";
import { trailingZero } from "./trailing-zero.ts";
import { unitBeforeNumber } from "./unit-before-number.ts";
import { unitLetterCase } from "./unit-letter-case.ts";
import { unitPeriod } from "./unit-period.ts";
import { unitRunTogether } from "./unit-run-together.ts";
import { unitSpelling } from "./unit-spelling.ts";
import { unitsAsU } from "./units-as-u.ts";
import { unseenCharacter } from "./unseen-character.ts";

export const notationChecks: readonly AnyCheck[] = [
  abbreviatedDrugName,
  customaryUnit,
  dateNotIso,
  figureBelowSlash,
  fraction,
  frequencyAbbreviated,
  instructionAbbreviated,
  internationalUnitsAsIu,
  litreAsSmallL,
  manyDecimals,
  microSign,
  microgramsShortened,
  microunits,
  millilitresAsCc,
  millionAsM,
  morphineOrMagnesium,
  nakedDecimal,
  nameRunIntoDose,
  nanogramsAsNg,
  numberWithTwoReadings,
  pluralUnit,
  powerOfTen,
  rangeWithHyphen,
  ratioStrength,
  romanNumeral,
  routeAbbreviated,
  routeNotInFull,
  signForWord,
  smallDecimal,
  thousandAsK,
  thousandsByComma,
  thousandsNotGrouped,
  thousandsNotInWords,
  timeAsFraction,
  trailingZero,
  unitBeforeNumber,
  unitLetterCase,
  unitPeriod,
  unitRunTogether,
  unitSpelling,
  unitsAsU,
  foreignLetter,
  quotesNotStraight,
  unseenCharacter,
  textNotClosed,
];
