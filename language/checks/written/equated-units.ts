/**
 * `mL/h = mcg/kg/min`, `mL/h × 6.67 = mcg/kg/min`: two units that a text calls the same, as the pump rate and the dose rate that it means.
 * `Weight (kg) × 3 = mg in 50 mL` as the dose for each kg.
 */

const number = "(\\d+(?:\\.\\d+)?)";
const rate = "([A-Za-z]+(?:\\/(?:kg|m2))?\\/(?:h|min|hour|minute|day))";
const times = `(?: ?([x×÷]|divided by) ?${number})?`;
const inWords = "(?:(?:the )?(?:pump )?(?:rate|dose) in )?";
const equated = new RegExp(`(?<![\\d.] ?)\\b${inWords}${rate}${times} (?:=|equals|is) ${inWords}${rate}${times}`, "gi");

const weight = "(?:body ?)?weight(?: ?\\(kg\\)| in kg)?";
const amount = "(mcg|micrograms?|mg|milligrams?|g|units|mmol)";
/** `Weight (kg) × 3 = mg in 50 mL`, `3 mg × weight (kg) in 50 mL`: what goes in for each kg. */
const byWeight = [
  new RegExp(`\\b${weight} ?[x×] ?${number} ?= ?${amount}\\b`, "gi"),
  new RegExp(`(?<![\\d.])${number} ?${amount} ?[x×] ?${weight}(?![\\w ]*\\d ?kg)`, "gi"),
];

/** What is read as figures further on: `1 mL/h = 6.67 mcg/kg/min`. One of the two units has to be mL by time. */
export function equatedUnitsSpelt(text: string): string {
  const spelt = byWeight.reduce((said, each) => said.replace(each, "$1 $2/kg"), text);
  return spelt.replace(equated, (whole, first, sign, by, second, otherSign, otherBy) => {
    if (isVolume(first) === isVolume(second) || (by && otherBy)) return whole;
    const factor = by ?? otherBy ?? "1";
    const isDivided = /÷|divided/i.test(sign ?? otherSign ?? "");
    // `first × factor = second`: for 1 of the first there are so many of the second.
    const isOfSecond = (by === undefined) === isDivided;
    return isOfSecond ? `1 ${first} = ${factor} ${second}` : `${factor} ${first} = 1 ${second}`;
  });
}

function isVolume(unit: string): boolean {
  return /^mL\//i.test(unit);
}
