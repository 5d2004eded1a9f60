/** The standard example with one more product on the tray, looked at and not used: for checks of what lies beside what. */
import { example } from "../example.ts";

const products = `
drug glycopyrronium {
  source      guide "glycopyrronium"
  name        "glycopyrronium bromide"
  high-alert  no
  hazard      not-hazardous
  light       not-sensitive
  dose        from 100 mcg up to 1 mg for any route
  concentration  up to 200 mcg/mL for any route
  compatible  sodium-chloride-0.9
}

stock glycopyrronium-ampoule {
  drug       glycopyrronium
  container  ampoule
  strength   200 mcg/mL
  fill       1 mL
  doses      single
  storage    room-temperature
}

stock magnesium-ampoule-10 {
  drug       magnesium-sulfate
  container  ampoule
  strength   100 mg/mL
  fill       10 mL
  doses      single
  storage    room-temperature
}

stock saline-ampoule {
  fluid       sodium-chloride-0.9
  container   ampoule
  fill        10 mL
  doses       single
  storage     room-temperature
  looks-like  magnesium-ampoule
}

lots glycopyrronium-ampoule {
  lot "KQ-8201"  expires 2027-09
}

lots magnesium-ampoule-10 {
  lot "KQ-8202"  expires 2027-09
}

lots saline-ampoule {
  lot "KQ-8203"  expires 2027-09
}
`;

/** The standard library and those products, with `stock` as a third material that is only checked. */
export function withThirdMaterial(stock: string): string {
  const text = example(
    ["    bag          saline-bag-100\n", `    bag          saline-bag-100\n    other        ${stock}\n`],
    ["    check label and expiry of mag, bag\n", "    check label and expiry of mag, bag, other\n"],
  );
  return `${text}${products}`;
}
