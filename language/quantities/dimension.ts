/**
 * What a unit measures. Two dimensions are the same object exactly when they are the same dimension, so `===` compares them.
 *
 * Kept apart on purpose, though a physicist would join them: mass and body weight, hours and calendar days, moles and
 * equivalents and osmoles, units of activity and mass, a bare percent and the shares by volume and by weight.
 */
export type Axis =
  | "mass"
  | "volume"
  | "moles"
  | "equivalents"
  | "osmoles"
  | "activity"
  | "drops"
  | "exposure"
  | "count"
  | "length"
  | "area"
  | "time"
  | "calendarDays"
  | "calendarMonths"
  | "bodyWeight"
  | "temperature"
  | "pH"
  | "gauge"
  | "percent"
  | "volume/volume"
  | "mass/mass";

/** Also the order in which a key names them. */
const axes: readonly Axis[] = [
  "mass",
  "volume",
  "moles",
  "equivalents",
  "osmoles",
  "activity",
  "drops",
  "exposure",
  "count",
  "length",
  "area",
  "temperature",
  "pH",
  "gauge",
  "percent",
  "volume/volume",
  "mass/mass",
  "bodyWeight",
  "calendarDays",
  "calendarMonths",
  "time",
];

const axisNames: Readonly<Record<Axis, string>> = {
  mass: "a mass",
  volume: "a volume",
  moles: "an amount of substance in mmol",
  equivalents: "an amount in mEq",
  osmoles: "an amount in mOsm",
  activity: "units of activity",
  drops: "a number of drops",
  exposure: "an exposure as AUC",
  count: "a number",
  length: "a length",
  area: "a body surface",
  time: "a time in hours",
  calendarDays: "a time in calendar days",
  calendarMonths: "a time in calendar months",
  bodyWeight: "a body weight",
  temperature: "a temperature",
  pH: "a pH",
  gauge: "a needle gauge",
  percent: "a percent without its kind",
  "volume/volume": "a share by volume",
  "mass/mass": "a share by weight",
};

/** What stands after "per" in a composed name. */
const perNames: Partial<Record<Axis, string>> = {
  mass: "mass",
  volume: "volume",
  moles: "mmol",
  equivalents: "mEq",
  osmoles: "mOsm",
  activity: "unit of activity",
  bodyWeight: "kg of body weight",
  area: "m2 of body surface",
  time: "time",
};

const composedNames: Readonly<Record<string, string>> = {
  "1": "a plain number",
  "mass/volume": "a concentration",
  "moles/volume": "a concentration in mmol",
  "equivalents/volume": "a concentration in mEq",
  "osmoles/volume": "an osmolarity",
  "osmoles/mass": "an osmolality",
  "activity/volume": "a concentration in units of activity",
  "volume/time": "a flow rate",
  "mass/time": "a rate",
  "volume/mass": "a volume per mass",
  "mass/bodyWeight": "a dose per kg of body weight",
  "mass/area": "a dose per m2 of body surface",
  "mass/bodyWeight/time": "a rate per kg of body weight",
};

export type Exponents = Readonly<Partial<Record<Axis, number>>>;

const interned = new Map<string, Dimension>();

export class Dimension {
  /** Axes above the line joined by `*`, then one `/axis` for each below it: `mass/bodyWeight/time`; `1` for a plain number. */
  readonly key: string;
  readonly exponents: Exponents;

  private constructor(key: string, exponents: Exponents) {
    this.key = key;
    this.exponents = exponents;
  }

  static of(exponents: Exponents): Dimension {
    const kept = settled(exponents);
    const key = keyOf(kept);
    const known = interned.get(key);
    if (known) return known;
    const made = new Dimension(key, kept);
    interned.set(key, made);
    return made;
  }

  times(o: Dimension): Dimension {
    return Dimension.of(sum(this.exponents, o.exponents, 1));
  }

  over(o: Dimension): Dimension {
    return Dimension.of(sum(this.exponents, o.exponents, -1));
  }

  /** In trade words with an article: "a mass", "a flow rate", "units of activity". */
  get name(): string {
    const known = composedNames[this.key];
    if (known) return known;
    const above = axes.filter((axis) => (this.exponents[axis] ?? 0) > 0).map((axis) => axisNames[axis]);
    const below = axes.filter((axis) => (this.exponents[axis] ?? 0) < 0).map((axis) => perNames[axis] ?? axis);
    return [above.join(" times ") || "a number", ...below].join(" per ");
  }
}

export const plainNumber = Dimension.of({});

function sum(a: Exponents, b: Exponents, sign: 1 | -1): Exponents {
  const total: Partial<Record<Axis, number>> = { ...a };
  for (const axis of axes) total[axis] = (a[axis] ?? 0) + sign * (b[axis] ?? 0);
  return total;
}

/** Drops what cancelled. A share by volume of a volume is a volume, so the share goes where its own axis stands beside it. */
function settled(exponents: Exponents): Exponents {
  const kept: Partial<Record<Axis, number>> = {};
  for (const axis of axes) {
    const power = exponents[axis] ?? 0;
    if (power !== 0) kept[axis] = power;
  }
  if (kept.volume) delete kept["volume/volume"];
  if (kept.mass) delete kept["mass/mass"];
  return kept;
}

function keyOf(exponents: Exponents): string {
  const above: string[] = [];
  const below: string[] = [];
  for (const axis of axes) {
    const power = exponents[axis] ?? 0;
    const name = Math.abs(power) > 1 ? `${axis}${Math.abs(power)}` : axis;
    if (power > 0) above.push(name);
    if (power < 0) below.push(`/${name}`);
  }
  return (above.join("*") || "1") + below.join("");
}
