/** Checks of stock: lots, expiry, products that are taken for one another. */
import type { AnyCheck } from "../check.ts";
import { everyLotExpired } from "./every-lot-expired.ts";
import { expiryNotADate } from "./expiry-not-a-date.ts";
import { lookAlikeContainers } from "./look-alike-containers.ts";
import { lotExpired } from "./lot-expired.ts";
import { lotExpiresBeforeUseLimit } from "./lot-expires-before-use-limit.ts";
import { lotExpiresSoon } from "./lot-expires-soon.ts";
import { lotRepeated } from "./lot-repeated.ts";
import { openedContainerLimit } from "./opened-container-limit.ts";
import { packIdentifierCheckDigit } from "./pack-identifier-check-digit.ts";
import { stockNotTheDrugOrdered } from "./stock-not-the-drug-ordered.ts";
import { twoStrengthsConfused } from "./two-strengths-confused.ts";

export const stockChecks: readonly AnyCheck[] = [
  lotExpired,
  lotExpiresSoon,
  everyLotExpired,
  lotExpiresBeforeUseLimit,
  lotRepeated,
  expiryNotADate,
  openedContainerLimit,
  packIdentifierCheckDigit,
  stockNotTheDrugOrdered,
  twoStrengthsConfused,
  lookAlikeContainers,
];
