/** Checks of technique: what the hands do, in which order. */
import type { AnyCheck } from "../check.ts";
import { addedBeforeMixed } from "./added-before-mixed.ts";
import { addedToPremixed } from "./added-to-premixed.ts";
import { addedWhileRunning } from "./added-while-running.ts";
import { airIntoAmpoule } from "./air-into-ampoule.ts";
import { airNotExpelled } from "./air-not-expelled.ts";
import { alreadyAttached } from "./already-attached.ts";
import { ampouleNotDisinfected } from "./ampoule-not-disinfected.ts";
import { ampouleNotOpened } from "./ampoule-not-opened.ts";
import { ampouleNotTapped } from "./ampoule-not-tapped.ts";
import { bagsInSeries } from "./bags-in-series.ts";
import { checkedWithAirInSyringe } from "./checked-with-air-in-syringe.ts";
import { denseMixingNotSaid } from "./dense-mixing-not-said.ts";
import { discardedBeforeCheck } from "./discarded-before-check.ts";
import { drawnBeforeDissolved } from "./drawn-before-dissolved.ts";
import { drawnBeforeMixed } from "./drawn-before-mixed.ts";
import { entryNotDisinfected } from "./entry-not-disinfected.ts";
import { filterPoreNotStated } from "./filter-pore-not-stated.ts";
import { filterShared } from "./filter-shared.ts";
import { filterTestedBeforeUse } from "./filter-tested-before-use.ts";
import { filterUsedBothWays } from "./filter-used-both-ways.ts";
import { glassNotFiltered } from "./glass-not-filtered.ts";
import { hazardousEqualAir } from "./hazardous-equal-air.ts";
import { hazardousNotClosed } from "./hazardous-not-closed.ts";
import { highAlertAddedUnchecked } from "./high-alert-added-unchecked.ts";
import { highAlertHiddenUnchecked } from "./high-alert-hidden-unchecked.ts";
import { intermediateNotDeclared } from "./intermediate-not-declared.ts";
import { intermediateNotLabelled } from "./intermediate-not-labelled.ts";
import { intermediateNotMade } from "./intermediate-not-made.ts";
import { intermediateNotUsedUp } from "./intermediate-not-used-up.ts";
import { joinedToAnother } from "./joined-to-another.ts";
import { labelNotChecked } from "./label-not-checked.ts";
import { labelledBeforeFilled } from "./labelled-before-filled.ts";
import { labelledTwice } from "./labelled-twice.ts";
import { leftUnmixed } from "./left-unmixed.ts";
import { lineNotPrimed } from "./line-not-primed.ts";
import { lipidAddedUnseen } from "./lipid-added-unseen.ts";
import { mixingTimesUnlikely } from "./mixing-times-unlikely.ts";
import { needleLeftOnSyringe } from "./needle-left-on-syringe.ts";
import { needleTooManyPunctures } from "./needle-too-many-punctures.ts";
import { needleWiped } from "./needle-wiped.ts";
import { noEqualAir } from "./no-equal-air.ts";
import { noNeedleAttached } from "./no-needle-attached.ts";
import { notAttached } from "./not-attached.ts";
import { openedNotAmpoule } from "./opened-not-ampoule.ts";
import { openedTwice } from "./opened-twice.ts";
import { poreUnlikely } from "./pore-unlikely.ts";
import { preparationDiscarded } from "./preparation-discarded.ts";
import { primeAfterDrug } from "./prime-after-drug.ts";
import { returnedToStock } from "./returned-to-stock.ts";
import { scaleForOtherStrength } from "./scale-for-other-strength.ts";
import { secondDrugInSyringe } from "./second-drug-in-syringe.ts";
import { shaken } from "./shaken.ts";
import { spikeForbidden } from "./spike-forbidden.ts";
import { startedUnready } from "./started-unready.ts";
import { sterilisingDoesNotFit } from "./sterilising-does-not-fit.ts";
import { suspensionDrawnSettled } from "./suspension-drawn-settled.ts";
import { swirledNothing } from "./swirled-nothing.ts";
import { swirledToOtherEnd } from "./swirled-to-other-end.ts";
import { tipOccupied } from "./tip-occupied.ts";
import { touchedAfterSeal } from "./touched-after-seal.ts";
import { transferDeviceOnAmpoule } from "./transfer-device-on-ampoule.ts";
import { usedAfterDiscard } from "./used-after-discard.ts";
import { ventedSpikeInBag } from "./vented-spike-in-bag.ts";
import { vialUnderPressure } from "./vial-under-pressure.ts";
import { wrongKindOfThing } from "./wrong-kind-of-thing.ts";

export const techniqueChecks: readonly AnyCheck[] = [
  addedBeforeMixed,
  addedToPremixed,
  addedWhileRunning,
  startedUnready,
  airIntoAmpoule,
  alreadyAttached,
  ampouleNotDisinfected,
  ampouleNotOpened,
  bagsInSeries,
  denseMixingNotSaid,
  discardedBeforeCheck,
  preparationDiscarded,
  drawnBeforeDissolved,
  drawnBeforeMixed,
  entryNotDisinfected,
  filterShared,
  filterUsedBothWays,
  filterTestedBeforeUse,
  glassNotFiltered,
  hazardousEqualAir,
  hazardousNotClosed,
  highAlertAddedUnchecked,
  intermediateNotDeclared,
  intermediateNotLabelled,
  intermediateNotMade,
  intermediateNotUsedUp,
  labelledBeforeFilled,
  labelledTwice,
  leftUnmixed,
  needleTooManyPunctures,
  needleWiped,
  needleLeftOnSyringe,
  noEqualAir,
  noNeedleAttached,
  notAttached,
  openedNotAmpoule,
  openedTwice,
  poreUnlikely,
  primeAfterDrug,
  returnedToStock,
  scaleForOtherStrength,
  secondDrugInSyringe,
  shaken,
  spikeForbidden,
  suspensionDrawnSettled,
  swirledNothing,
  swirledToOtherEnd,
  sterilisingDoesNotFit,
  touchedAfterSeal,
  transferDeviceOnAmpoule,
  usedAfterDiscard,
  vialUnderPressure,
  wrongKindOfThing,
  lineNotPrimed,
  lipidAddedUnseen,
  filterPoreNotStated,
  airNotExpelled,
  checkedWithAirInSyringe,
  highAlertHiddenUnchecked,
  joinedToAnother,
  labelNotChecked,
  mixingTimesUnlikely,
  ampouleNotTapped,
  tipOccupied,
  ventedSpikeInBag,
];
