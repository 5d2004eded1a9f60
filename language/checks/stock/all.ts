/** Checks of stock: lots, expiry, products that are taken for one another. */
import type { AnyCheck } from "../check.ts";
import { contentContradictsStrength } from "./content-contradicts-strength.ts";
import { everyLotExpired } from "./every-lot-expired.ts";
import { expiryNotADate } from "./expiry-not-a-date.ts";
import { fillAboveCapacity } from "./fill-above-capacity.ts";
import { fluidFiguresDoNotFit } from "./fluid-figures-do-not-fit.ts";
import { labelFigureUnlikely } from "./label-figure-unlikely.ts";
import { lookAlikeContainers } from "./look-alike-containers.ts";
import { lotExpired } from "./lot-expired.ts";
import { lotExpiresBeforeUseLimit } from "./lot-expires-before-use-limit.ts";
import { lotExpiresSoon } from "./lot-expires-soon.ts";
import { lotExpiryUnlikely } from "./lot-expiry-unlikely.ts";
import { lotRepeated } from "./lot-repeated.ts";
import { lotsEmpty } from "./lots-empty.ts";
import { noLotOnShelf } from "./no-lot-on-shelf.ts";
import { openedContainerLimit } from "./opened-container-limit.ts";
import { packIdentifierCheckDigit } from "./pack-identifier-check-digit.ts";
import { powderFiguresDoNotFit } from "./powder-figures-do-not-fit.ts";
import { scaleBeyondCapacity } from "./scale-beyond-capacity.ts";
import { stockNotTheDrugOrdered } from "./stock-not-the-drug-ordered.ts";
import { twoStrengthsConfused } from "./two-strengths-confused.ts";
import { withdrawableBeyondContent } from "./withdrawable-beyond-content.ts";
import { withdrawableFarBelowContent } from "./withdrawable-far-below-content.ts";

export const stockChecks: readonly AnyCheck[] = [
  contentContradictsStrength,
  powderFiguresDoNotFit,
  fillAboveCapacity,
  lotExpired,
  lotExpiresSoon,
  lotExpiryUnlikely,
  everyLotExpired,
  lotExpiresBeforeUseLimit,
  lotRepeated,
  expiryNotADate,
  openedContainerLimit,
  packIdentifierCheckDigit,
  scaleBeyondCapacity,
  stockNotTheDrugOrdered,
  twoStrengthsConfused,
  fluidFiguresDoNotFit,
  labelFigureUnlikely,
  lookAlikeContainers,
  noLotOnShelf,
  withdrawableFarBelowContent,
  withdrawableBeyondContent,
  lotsEmpty,
];
