/** How fast and for how long it is given: what the order says twice, what a pump can be set to, how long it keeps; and its osmolarity. */
import { Fraction } from "../oracle/fraction.ts";
import { inHours, volumeOf } from "./amounts.ts";
import { hoursOfGiving, speed } from "./judge-limits.ts";
import type { Scenario, Verdict } from "./scenario.ts";

/** Rate and time of one order, a pump's step, and how long it keeps. */
export function givingVerdicts(scenario: Scenario): Verdict[] {
  const { order, site, useWithin } = scenario;
  const found: Verdict[] = [];
  const spots = ["infuse-at", "infuse-over"];
  const at = speed(scenario);
  const volume = volumeOf(scenario);
  if (at && order.over) {
    // The generator writes a rate that is right to the figures it is written with, or one that is far out.
    const [stated, followed] = [inHours(order.over), volume.over(at)];
    const apart = stated.over(followed).minus(Fraction.one);
    const far = Fraction.of("0.05");
    if (apart.against(far) > 0 || apart.against(Fraction.zero.minus(far)) < 0)
      found.push({ name: "rate-and-time-differ", at: spots });
  }
  const hours = hoursOfGiving(scenario);
  if (hours && !order.use.endsWith("bolus")) {
    const rate = at ?? volume.over(hours);
    // 0.1 mL/h where the site says nothing.
    const off = rate
      .nearest(site.pumpStep ?? Fraction.of("0.1"))
      .over(rate)
      .minus(Fraction.one);
    const allowed = Fraction.of("0.05");
    if (off.against(allowed) > 0 || off.against(Fraction.zero.minus(allowed)) < 0)
      found.push({ name: "rate-not-settable", at: spots });
  }
  const longest = useWithin
    .map(({ time: { number, unit } }) =>
      inHours(unit === "months" ? { number: number * 28, unit: "days" } : { number, unit }),
    )
    .reduce((a, b) => (a.against(b) > 0 ? a : b), Fraction.zero);
  // A time is meant as it is said; a rate is rounded as pumps are set.
  const most = order.over ? longest : longest.times(Fraction.of("1.05"));
  if (hours && useWithin.length > 0 && !order.use.startsWith("titrated") && hours.against(most) > 0)
    found.push({ name: "given-longer-than-kept", at: spots });
  return found;
}

/** mOsm of fluid and products over all the liquid, against what the site lets into a vein of the arm; 900 mOsm/L where it says nothing. */
export function osmolarityVerdicts(scenario: Scenario): Verdict[] {
  const { order, site, fluid, bag, additives } = scenario;
  if (order.access !== "peripheral") return [];
  const all = additives.reduce(
    (sum, { product, volume }) => sum.plus(Fraction.of(product.osmolarity!).times(volume)),
    Fraction.of(fluid.osmolarity).times(bag.fill!.value),
  );
  const isAboveSite = all.over(volumeOf(scenario)).against(Fraction.of(site.osmolarity ?? 900)) > 0;
  return isAboveSite ? [{ name: "osmolarity-too-high-for-peripheral", at: ["access"] }] : [];
}
