/** Lines of a text with the spots that stand on them, and how figures are written there. */
import type { Fraction } from "../oracle/fraction.ts";
import type { Condition, Limits, Pore, Spot, Time } from "./scenario.ts";

export const number = (value: Fraction): string => {
  const text = value.decimal();
  if (text === undefined) throw new RangeError(`${value} has no end`);
  const [whole = "", part] = text.split(".");
  return `${whole.replace(/\B(?=(\d{3})+$)/g, ",")}${part ? `.${part}` : ""}`;
};

export const timeText = (time: Time): string => `${time.number} ${time.unit}`;

export function limitsText({ low, high, unit }: Limits): string {
  const parts = [
    ...(low ? [`${low.included ? "from" : "above"} ${number(low.value)} ${unit}`] : []),
    ...(high ? [`${high.included ? "up to" : "below"} ${number(high.value)} ${unit}`] : []),
  ];
  return parts.length > 0 ? parts.join(" ") : "any";
}

export const whenText = (when: Condition | undefined): string =>
  when ? ` when ${when.input} ${limitsText(when)}` : "";

export const poreText = (word: string, pore: Pore | undefined): string[] => {
  if (!pore) return [];
  const edge = pore.micrometres
    ? ` ${pore.rule === "required" ? "up to" : "below"} ${pore.micrometres} micrometre`
    : "";
  return [`${word} ${pore.rule}${edge}`];
};

export class Page {
  readonly lines: string[] = [];
  readonly lineOf = new Map<Spot, number>();

  put(text: string, spot?: Spot): void {
    this.lines.push(text);
    if (spot !== undefined) this.lineOf.set(spot, this.lines.length);
  }

  block(head: string, body: () => void, spot?: Spot): void {
    this.put(`${head} {`, spot);
    body();
    this.put("}");
  }
}
