/** The shelf: lots around the day, the horizon and the last day of use. */
import type { Random } from "../oracle/random.ts";
import { dateOf, dayOf } from "./judge-stock.ts";
import type { Lot, Scenario } from "./scenario.ts";

export function shelf(random: Random, scenario: Scenario): void {
  const { additives, bag, lots, site, asOf } = scenario;
  if (random.chance(0.2)) site.monthOnly = "first-day";
  const today = dayOf(asOf);
  let next = 2000;
  for (const stock of [...additives.map(({ product }) => product.name), bag.name]) {
    const list: Lot[] = [];
    const count = random.pick([1, 1, 2, 3]);
    for (let i = 0; i < count; i++) {
      const away = random.pick([
        ...[500, 500, 500, 500, 400],
        ...[-1, 0, 1, 2, 4, 5, site.expiryAhead, site.expiryAhead + 1, -40],
      ]);
      const day = dateOf(today + away);
      list.push({ id: `KQ-${next++}`, expires: random.chance(0.3) ? day.slice(0, 7) : day });
    }
    lots.set(stock, list);
  }
  for (const { product } of additives)
    if (product.doses === "multiple" && random.chance(0.8)) product.inUse = { number: 24, unit: "h" };
}
