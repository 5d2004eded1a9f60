/** A number as written, judged: its value where only one is possible, and what is unsafe about it. */
import { Exact } from "./exact.ts";
import type { HouseStyle } from "./house.ts";
import { grouped, numberText, thinSpace } from "./number-text.ts";
import type { NumberReading } from "./reading.ts";
import { Remembered } from "./remembered.ts";

/** Far beyond any dose; longer digit strings are a slip and would only cost time. */
const longestNumber = 40;

const scales: Readonly<Record<string, Exact>> = { million: Exact.of(1_000_000), thousand: Exact.of(1000) };

const fractions: Readonly<Record<string, string>> = {
  "½": "0.5",
  "¼": "0.25",
  "¾": "0.75",
  "⅛": "0.125",
  "⅓": "",
  "⅔": "",
};

/** Pure. `2.50` is 2.5 with a fault; `1,00`, `2 100`, `1,0000` and `05` have no value. A leading `-` is part of the number. Answers are shared and must not be changed. */
export function readNumber(text: string, house: HouseStyle): NumberReading {
  return numbers.get(house, text) ?? numbers.put(house, text, judgeNumber(text, house));
}

const numbers = new Remembered<NumberReading>();

function judgeNumber(text: string, house: HouseStyle): NumberReading {
  if (text.length > longestNumber) return without(text, "number-shape", "So many digits cannot be checked by eye.");
  const fraction = fractionReading(text);
  if (fraction) return fraction;
  const power = /^(?:(\d+(?:\.\d+)?) ?[x×*·] ?)?10(?:\^(\d{1,2})|([⁰¹²³⁴-⁹]{1,2}))$/.exec(text);
  if (power) return powerReading(text, power[1], Number(power[2] ?? power[3]!.normalize("NFKC")), house);
  if (/[\^eE]/.test(text))
    return without(text, "number-shape", "A raised figure is easily lost. Write the number out.");
  const [, sign = "", digits = "", scale] = /^(-?)([\s\S]*?)(?:\s(million|thousand))?$/.exec(text) ?? [];
  const trouble = twoReadings(digits);
  if (trouble) return without(text, ...trouble);
  return plainReading(sign, digits, scale, house);
}

function without(text: string, rule: string, detail: string): NumberReading {
  return { value: undefined, decimals: 0, faults: [{ rule, start: 0, end: text.length, detail }] };
}

/** Why these digits can be read in two ways, as rule and sentence; undefined where there is one reading. */
function twoReadings(digits: string): [rule: string, detail: string] | undefined {
  if (
    /^[\d.,]*\s[\d.,\s]*$/.test(digits) &&
    !new RegExp(`^[1-9]\\d{0,2}(${thinSpace}\\d{3})+(\\.\\d+)?$`).test(digits)
  ) {
    return [
      "gap-in-number",
      "A gap inside a number can be read as one number or as two. Write it with commas, or each number by itself.",
    ];
  }
  if (/[·∙]/.test(digits))
    return [
      "raised-point",
      "A raised point is a decimal point to some and a product to others. Write the point on the line.",
    ];
  if (/['’]/.test(digits))
    return [
      "gap-in-number",
      "An apostrophe inside a number can be read as one number or as two. Write it with commas, or each number by itself.",
    ];
  // Elsewhere the point parts thousands; who means a decimal writes no zero behind it.
  if (/^[1-9]\d{0,2}\.\d\d0$/.test(digits))
    return [
      "point-as-thousands",
      `This point can stand for thousands or for a decimal point. Write ${pointReadings(digits).join(" or ")}, whichever is meant.`,
    ];
  if (/,/.test(digits) && !/^[1-9]\d{0,2}(,\d{3})+(\.\d+)?$/.test(digits)) {
    return [
      "comma-not-thousands",
      "This comma can stand for a decimal point or for thousands. Write a point for decimals and commas between groups of three figures.",
    ];
  }
  if (/^0\d/.test(digits))
    return [
      "leading-zero",
      `A figure that begins with 0 may have lost its decimal point. Write ${zeroReadings(digits).join(" or ")}${zeroReadings(digits).length > 1 ? ", whichever is meant" : " if that is meant"}.`,
    ];
  if (!new RegExp(`^[\\d,${thinSpace}]*(\\.\\d+)?$`).test(digits) || digits === "") {
    return ["number-shape", "This cannot be read as one number. Write figures with at most one decimal point."];
  }
  return undefined;
}

/** `1.500` may be 1,500 or 1.5. */
export function pointReadings(digits: string): string[] {
  return [digits.replace(".", ","), digits.replace(/\.?0+$/, "")];
}

/** `05` may be 0.5 or 5; `050` is 0.5 (not 0.50) or 50. */
function zeroReadings(digits: string): string[] {
  const rest = digits.replace(/^0+/, "");
  const [whole = "", fraction] = rest.split(".");
  const bare = `${whole || "0"}${fraction === undefined ? "" : `.${fraction}`}`;
  if (!rest) return ["0"];
  if (fraction !== undefined || !whole) return [bare];
  return [`0.${digits.slice(1).replace(/0+$/, "")}`, bare];
}

function plainReading(sign: string, digits: string, scale: string | undefined, house: HouseStyle): NumberReading {
  const bare = digits.replace(/[,\u202f]/g, "");
  const [whole = "", fraction = ""] = bare.split(".");
  const unscaled = Exact.of(`${sign}${whole || "0"}${fraction ? `.${fraction}` : ""}`);
  const value = scale ? unscaled.times(scales[scale]!) : unscaled;
  const decimals = scale ? (value.decimalPlaces() ?? 0) : fraction.length;
  const shortest = fraction.replace(/0+$/, "");
  const faults: NumberReading["faults"] = [];
  const place = { start: 0, end: sign.length + digits.length };
  const mended = `${sign}${grouped(whole || "0", groupingSeen(digits, house))}${shortest ? `.${shortest}` : ""}`;
  if (whole === "") {
    faults.push({
      rule: "naked-decimal",
      ...place,
      replacement: mended,
      detail: "Without a zero before it the decimal point is missed: ten times too much or more.",
    });
  }
  if (fraction !== shortest) {
    faults.push({
      rule: "trailing-zero",
      ...place,
      replacement: mended,
      detail: "If the decimal point is not seen, the figure reads ten times too large or more.",
    });
  }
  if (faults.length === 0) faults.push(...thousandsFaults(digits, value, scale, place, house));
  return { value, decimals, faults };
}

function groupingSeen(digits: string, house: HouseStyle): HouseStyle["thousands"] {
  if (digits.includes(",")) return "comma";
  if (digits.includes(thinSpace)) return "thin-space";
  return house.thousands === "words" ? "comma" : house.thousands;
}

/** What the house asks of a number from 1,000 on. */
function thousandsFaults(
  digits: string,
  value: Exact,
  scale: string | undefined,
  place: { start: number; end: number },
  house: HouseStyle,
): NumberReading["faults"] {
  const whole = digits.split(".")[0] ?? "";
  const figures = whole.replace(/\D/g, "").length;
  const separator = whole.includes(",") ? "comma" : whole.includes(thinSpace) ? "thin-space" : "none";
  if (scale || figures < 4 || house.thousands === "none") return [];
  const replacement = numberText(value, house.thousands);
  if (separator === "none") {
    if (replacement === digits || (house.thousands === "thin-space" && figures < 5)) return [];
    const rule = house.thousands === "words" ? "thousands-in-words" : "no-thousands-separator";
    return [{ rule, ...place, replacement, detail: "Long rows of figures are miscounted." }];
  }
  // Words are for round thousands; between them the same list takes commas.
  const accepted = house.thousands === "words" ? "comma" : house.thousands;
  if (separator === accepted) return [];
  const rule = house.thousands === "thin-space" ? "space-separator" : "no-thousands-separator";
  return [{ rule, ...place, replacement, detail: "This site groups thousands in another way." }];
}

/** `1/2`, `1½`, `1 1/2`, `½`, and `2/52`, `1/7`, `6/24`, which stand for weeks, days and hours. */
function fractionReading(text: string): NumberReading | undefined {
  const mixed = /^(\d*) ?([½¼¾⅛⅓⅔])$/.exec(text);
  const place = { start: 0, end: text.length };
  if (mixed) {
    const decimal = fractions[mixed[2] ?? ""] ?? "";
    const value = decimal === "" ? undefined : Exact.of(decimal).plus(Exact.of(mixed[1] || "0"));
    const places = value ? "" : " Write the decimal with as many places as are meant.";
    const detail = `Fractions are for customary units; metric amounts are written as decimals.${places}`;
    const fault = { rule: "mixed-fraction", ...place, detail, ...(value ? { replacement: value.toText() } : {}) };
    return { value, decimals: value?.decimalPlaces() ?? 0, faults: [fault] };
  }
  const slashed = /^(?:(\d{1,2}) )?(\d{1,3})\/(\d{1,3})$/.exec(text);
  if (!slashed) return undefined;
  const [, wholes = "0", top = "", bottom = ""] = slashed;
  if (wholes === "0" && /^(7|12|24|52)$/.test(bottom)) {
    return without(
      text,
      "fraction-duration",
      "Fractions for a time are read as counts. Write the number and days, weeks, months or hours.",
    );
  }
  const value = Number(bottom) === 0 ? undefined : Exact.of(wholes).plus(Exact.of(top).over(Exact.of(bottom)));
  const safe = value?.terminates() ? { replacement: value.toText() } : {};
  const places = value?.terminates() ? "" : " Write the decimal with as many places as are meant.";
  const detail = `The slash has been read as the figure 1, and 1/2 as 1 or 2.${places}`;
  return {
    value: value?.terminates() ? value : undefined,
    decimals: value?.decimalPlaces() ?? 0,
    faults: [{ rule: "half-tablet", ...place, detail, ...safe }],
  };
}

function powerReading(text: string, count: string | undefined, exponent: number, house: HouseStyle): NumberReading {
  const value = Exact.of(`1e${exponent}`).times(Exact.of(count ?? "1"));
  const detail = "A power of ten loses its raised figure and is not understood everywhere.";
  const fault = {
    rule: "power-of-ten",
    start: 0,
    end: text.length,
    replacement: numberText(
      value,
      exponent < 6 ? (house.thousands === "thin-space" ? "thin-space" : "comma") : "words",
    ),
    detail,
  };
  return { value, decimals: 0, faults: [fault] };
}
