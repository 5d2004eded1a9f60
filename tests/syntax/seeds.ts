/** Three texts to mutate: between them they use every kind of token, block and layout. Figures only illustrate form. */

const recipe = `# Kestrel Quay Infirmary, standard preparations

recipe magnesium-4g {
  title  "Magnesium sulfate 4 g in sodium chloride 0.9 % 100 mL"

  order {
    drug            magnesium-sulfate
    dose            4 g per bag
    diluent-volume  100 mL
    method          add-to-bag
  }

  materials {
    mag         3 x magnesium-ampoule
    bag         saline-bag-100  when dose up to 1.25 g
  }

  steps {
    check label and expiry of mag, bag
    draw 4 g from mag into syringe  = 8 mL
    make up working to 10 mL with saline-amp  giving 25 mcg/mL  # by eye
    mix bag by inverting 10 times
    only when dose above 500 mg {
      swirl vials until dissolved
    }
  }

  deviation overfull-margin on bag
    because "pump reservoir measured at 260 mL, form KQ-118"
    by aseptic-lead
    until 2027-03-31
}

lots magnesium-ampoule {  # the shelf
  lot  "KQ-2291"  expires 2027-04
  lot  "KQ-\\"2304\\""  expires 2026-12-15
}
`;

const facts = `site {
  name            "Kestrel Quay Infirmary"
  tolerance       dose 5 %
  expiry-ahead    30 days
}

drug adrenaline {
  name           "adrenaline"
  ion            magnesium charge 2 count 1
  concentration  up to 200 mg/mL for route intravenous
    source guide-a "section 5"
  compatible     sodium-chloride-0.9  source guide-a "table 2"
  stable {
    source         guide-a "table 7"
    concentration  any
    for            24 h
  }
}

stock adrenaline-ampoule {
  strength      1:1000 w/v
  content       0.9 % w/v
  reconstitute {
    with          1.2 mL of water-for-injection
    gives         5 million units
  }
}

bands vancomycin-bands {
  from  95 mg below 105 mg gives 100 mg
}
`;

// Awkward on purpose: what people paste, mistype and leave half done.
const awkward = `\uFEFFRecipe naïve {\r
\torder{\r
    dose 10mg per bag\t\r
    dose .5 mg, 1,000 mL , 1, 000 5 -10\r
    weight 60-100 kg\r
    additive 5-fluorouracil 10\u00A0000 mg.\r
  }\r
  steps {\r
    open mag#2\r
    draw 1½ mL @ “room” = 8 mL }\r
    by hand\r
  } x\r
  lot "open {\r
    expires 2027-04-lot 03/04/26\r
}\r
source "stray"\r
until 2027-03-31\r
}}\r
drug x { y\r
 5  million units 2x bag 20 × bag 5 M units\r
\r
\r
\r
\r
  { {\r
stock 5-x {\r
  a "b"c=5,6\u2028\u0000 \uD800 name--x sodium-chloride-0.9.\r
# end`;

export const seeds = [recipe, facts, awkward] as const;
export const canonicalSeeds = [recipe, facts] as const;
