/** The standard example with a second drug added to the bag, for checks of what two drugs do to each other. Silent as it stands. */
import { example } from "../example.ts";

/** The line of thiamine's monograph that the checks change. */
export const thiamineCompatible = "  compatible     magnesium-sulfate";

const thiamine = `
drug thiamine {
  source         guide "thiamine"
  name           "thiamine hydrochloride"
  high-alert     no
  hazard         not-hazardous
  light          not-sensitive
  compatible     sodium-chloride-0.9
${thiamineCompatible}
  dose           from 50 mg up to 500 mg for any route
  concentration  up to 50 mg/mL for any route
  rate           up to 100 mg/h for route intravenous
  stable {
    source         guide "table 8"
    in             sodium-chloride-0.9
    at             room-temperature
    concentration  any
    made-of        any
    light          any
    counted-from   mixing
    for            24 h
  }
}

stock thiamine-ampoule {
  drug       thiamine
  container  ampoule
  strength   50 mg/mL
  fill       2 mL
  doses      single
  storage    room-temperature
}

lots thiamine-ampoule {
  lot "KQ-8301"  expires 2027-09
}
`;

export const addThiamine = `    tap thi
    disinfect thi
    open thi
    attach thi-filter to thi-syringe
    draw 100 mg from thi into thi-syringe  = 2 mL
    expel air from thi-syringe
    replace thi-filter on thi-syringe with thi-needle
    disinfect bag
    inject thi-syringe into bag
    mix bag by inverting 10 times
`;

type Change = [from: string, to: string];

/** Magnesium goes in first, then thiamine; further changes as in `example`, over the recipe and the thiamine declarations. */
export function twoDrugs(...changes: Change[]): string {
  let text = `${example(
    ["    drug            magnesium-sulfate\n", ""],
    [
      "    dose            4 g per bag\n",
      "    additive        magnesium-sulfate  4 g per bag\n    additive        thiamine  100 mg per bag\n",
    ],
    [
      "    needle       needle-18-gauge\n",
      "    needle       needle-18-gauge\n    thi          thiamine-ampoule\n    thi-syringe  syringe-3mL\n    thi-filter   filter-needle-5um\n    thi-needle   needle-18-gauge\n",
    ],
    ["expiry of mag, bag", "expiry of mag, thi, bag"],
    ["    mix bag by inverting 10 times\n", `    mix bag by inverting 10 times\n${addThiamine}`],
    [
      "keep mag, filter, needle, syringe for check",
      "keep mag, thi, filter, needle, syringe, thi-syringe, thi-filter, thi-needle for check",
    ],
    [
      "    concentration  37.04 mg/mL\n",
      "    concentration  magnesium-sulfate 36.36 mg/mL\n    concentration  thiamine 0.9091 mg/mL\n",
    ],
  )}${thiamine}`;
  for (const [from, to] of changes) {
    if (text.split(from).length !== 2) throw new Error(`an example must change just one place: ${from}`);
    text = text.replace(from, () => to);
  }
  return text;
}
