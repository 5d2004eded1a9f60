/**
 * The small library in which every check shows itself: `bad` and `good` of a check are this text with a line changed, taken out or
 * put in, so that what they show stands out and stays whole. It is silent under all checks (tested). Its figures illustrate form;
 * they are invented.
 */
export const standardLibrary = `site {
  name           "Kestrel Quay Infirmary"
  cabinet        horizontal-laminar-flow
  beyond-use     usp-797-2023 category 2
  tolerance      dose 5 %
  expiry-ahead   30 days
  role           pharmacist
  role           aseptic-lead
}

reference guide {
  title     "Guide to injectable medicines of the Kestrel Quay Infirmary"
  year      "2026"
  invented  yes
}

drug magnesium-sulfate {
  source         guide "magnesium"
  name           "magnesium sulfate heptahydrate"
  formula        "MgSO4.7H2O"
  ion            magnesium charge 2
  high-alert     no
  hazard         not-hazardous
  light          not-sensitive
  compatible     sodium-chloride-0.9
  dose           from 500 mg up to 10 g for any route
  concentration  up to 200 mg/mL for route intravenous
  rate           up to 9 g/h for route intravenous
  stable {
    source         guide "table 7"
    in             sodium-chloride-0.9
    at             room-temperature
    concentration  any
    made-of        any
    light          any
    counted-from   mixing
    for            24 h
  }
}

fluid sodium-chloride-0.9 {
  source      guide "fluids"
  name        "sodium chloride 0.9 % w/v"
  contains    sodium 154 mmol/L
  contains    chloride 154 mmol/L
  osmolarity  308 mOsm/L
  use         injection
}

stock magnesium-ampoule {
  drug       magnesium-sulfate
  container  ampoule
  strength   500 mg/mL
  fill       10 mL
  doses      single
  storage    room-temperature
}

stock saline-bag-100 {
  fluid      sodium-chloride-0.9
  container  bag
  fill       100 mL
  capacity   150 mL
  made-of    polyolefin
  doses      single
  storage    room-temperature
}

lots magnesium-ampoule {
  lot "KQ-2291"  expires 2027-04
}

lots saline-bag-100 {
  lot "KQ-5310"  expires 2027-09-30
}

recipe magnesium-4g {
  title  "Magnesium sulfate 4 g in sodium chloride 0.9 % 100 mL"

  order {
    drug            magnesium-sulfate
    dose            4 g per bag
    diluent         sodium-chloride-0.9
    diluent-volume  100 mL
    method          add-to-bag
    route           intravenous
    access          peripheral
    infuse-over     4 h
  }

  materials {
    mag          magnesium-ampoule
    bag          saline-bag-100
    syringe      syringe-10mL
    filter       filter-needle-5um
    needle       needle-18-gauge
  }

  steps {
    check label and expiry of mag, bag
    tap mag
    disinfect mag
    open mag
    attach filter to syringe
    draw 4 g from mag into syringe  = 8 mL
    expel air from syringe
    replace filter on syringe with needle
    disinfect bag
    inject syringe into bag
    mix bag by inverting 10 times
    inspect bag
    seal bag
    label bag
    keep mag, filter, needle, syringe for check
    check by pharmacist
  }

  preparation bag {
    form           solution-for-infusion
    concentration  37.04 mg/mL
    use-within     24 h at room-temperature
    appearance     "clear, colourless, free of particles"
  }
}
`;

type Change = [from: string, to: string];

/**
 * The standard library with stretches replaced; a change to "" takes the whole line out.
 * @throws Error when a stretch does not stand just once: an example that changes nothing would show nothing.
 */
export function example(...changes: Change[]): string {
  return changed(standardLibrary, changes);
}

function changed(library: string, changes: readonly Change[]): string {
  let text = library;
  for (const [from, to] of changes) {
    const at = text.indexOf(from);
    if (at < 0 || text.indexOf(from, at + 1) >= 0) throw new Error(`an example must change just one place: ${from}`);
    text = to === "" ? text.replace(lineOf(text, from.trimEnd()), "") : text.replace(from, () => to);
  }
  return text;
}

function lineOf(text: string, part: string): string {
  const at = text.indexOf(part);
  const start = text.lastIndexOf("\n", at) + 1;
  return text.slice(start, text.indexOf("\n", at + part.length) + 1);
}

/** The standard library with further declarations behind it. */
export function standardAnd(more: string): string {
  return `${standardLibrary}\n${more}`;
}

/** A powder vial reconstituted and added to a bag; silent under all checks too. Its figures are invented. */
export const powderLibrary = `${standardLibrary}
drug vancomycin {
  source         guide "vancomycin"
  name           "vancomycin"
  high-alert     no
  hazard         not-hazardous
  mixing         not-shaken
  light          not-sensitive
  compatible     sodium-chloride-0.9
  compatible     water-for-injection
  dose           from 100 mg up to 3 g for any route
  concentration  up to 10 mg/mL for route intravenous
  rate           up to 1 g/h for route intravenous
  stable {
    source         guide "table 9"
    in             sodium-chloride-0.9
    at             room-temperature
    concentration  any
    made-of        any
    light          any
    counted-from   mixing
    for            24 h
  }
}

fluid water-for-injection {
  source      guide "fluids"
  name        "water for injection"
  osmolarity  0 mOsm/L
  use         injection
}

stock vancomycin-vial-500 {
  drug       vancomycin
  container  powder-vial
  content    500 mg
  doses      single
  storage    room-temperature
  reconstitute {
    source        guide "vancomycin"
    with          10 mL of water-for-injection
    gives         50 mg/mL
    withdrawable  10 mL
  }
}

stock wfi-vial-20 {
  fluid      water-for-injection
  container  vial
  fill       20 mL
  doses      single
  storage    room-temperature
}

lots vancomycin-vial-500 {
  lot "KQ-7001"  expires 2027-06
}

lots wfi-vial-20 {
  lot "KQ-7102"  expires 2027-08
}

recipe vancomycin-500mg {
  title  "Vancomycin 500 mg in sodium chloride 0.9 % 100 mL"

  order {
    drug            vancomycin
    dose            500 mg per sack
    diluent         sodium-chloride-0.9
    diluent-volume  100 mL
    method          add-to-bag
    route           intravenous
    access          peripheral
    infuse-over     60 min
  }

  materials {
    vial         vancomycin-vial-500
    wfi          wfi-vial-20
    sack         saline-bag-100
    measure      syringe-10mL
    thin         needle-21-gauge
  }

  steps {
    check label and expiry of vial, wfi, sack
    attach thin to measure
    disinfect wfi, vial
    reconstitute vial with 10 mL from wfi using measure at equal pressure
    swirl vial until dissolved
    draw 500 mg from vial into measure at equal pressure  = 10 mL
    expel air from measure
    disinfect sack
    inject measure into sack
    mix sack by inverting 10 times
    inspect sack
    seal sack
    label sack
    keep vial, wfi, thin, measure for check
    check by pharmacist
  }

  preparation sack {
    form           solution-for-infusion
    concentration  4.55 mg/mL
    use-within     24 h at room-temperature
    appearance     "clear, colourless, free of particles"
  }
}
`;

/** The powder library with stretches replaced, as `example` does. */
export function powderExample(...changes: Change[]): string {
  return changed(powderLibrary, changes);
}
