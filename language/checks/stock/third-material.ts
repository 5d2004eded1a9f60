/** The standard example with one more product on the tray, looked at and not used: for checks of what lies beside what. */
import { example } from "../example.ts";

const products = `
drug glycopyrronium {
  source      guide "glycopyrronium"
  name        "glycopyrronium bromide"
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
`;

/** The standard library and those products, with `stock` as a third material that is only checked. */
export function withThirdMaterial(stock: string): string {
  const text = example(
    ["    bag          saline-bag-100\n", `    bag          saline-bag-100\n    other        ${stock}\n`],
    ["    check label and expiry of mag, bag\n", "    check label and expiry of mag, bag, other\n"],
  );
  return `${text}${products}`;
}
