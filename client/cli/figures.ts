/** The amounts in a message: what a finding says of the patient, without its words, and without what alters from day to day. */
import { bySpelling } from "../../language/quantities/unit-part.ts";

// A date is no amount, nor is a step's or a line's number: only what has a unit counts, and a factor.
const amount = /(\d[\d,]*(?:\.\d+)?(?:e-?\d+)?) ?(%|times\b|[A-Za-z][A-Za-z0-9]*)((?:\/[A-Za-z0-9]+)*)/g;

/** In the order of the message, such as `0.8 mL, 8 mL, 10 times`. Empty for a message without amounts. */
export function figuresOf(message: string): string {
  const found: string[] = [];
  for (const [, figure, word = "", below] of message.matchAll(amount)) {
    // How many days are left is another figure every day.
    const axis = bySpelling.get(word)?.axis;
    if (
      word === "%" ||
      word === "times" ||
      (axis !== undefined && axis !== "calendarDays" && axis !== "calendarMonths")
    )
      found.push(`${figure} ${word}${below}`);
  }
  return found.join(", ");
}
