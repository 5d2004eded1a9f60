/** `mL/h = mcg/kg/min`, `mL/h × 6.67 = mcg/kg/min`: two units that a text calls the same, as the pump rate and the dose rate that it means. */

const number = "(\\d+(?:\\.\\d+)?)";
const rate = "([A-Za-z]+(?:\\/(?:kg|m2))?\\/(?:h|min|hour|minute|day))";
const times = `(?: ?([x×÷]|divided by) ?${number})?`;
const inWords = "(?:(?:the )?(?:pump )?(?:rate|dose) in )?";
const equated = new RegExp(`(?<![\\d.] ?)\\b${inWords}${rate}${times} (?:=|equals|is) ${inWords}${rate}${times}`, "gi");

/** What is read as figures further on: `1 mL/h = 6.67 mcg/kg/min`. One of the two units has to be mL by time. */
export function equatedUnitsSpelt(text: string): string {
  return text.replace(equated, (whole, first, sign, by, second, otherSign, otherBy) => {
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
