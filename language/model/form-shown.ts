/** A form as a person reads it, for messages, hover and the reference. */

const slotWords: Readonly<Record<string, string>> = {
  name: "NAME",
  names: "NAMES",
  measure: "QUANTITY",
  strength: "QUANTITY",
  range: "QUANTITY",
  number: "NUMBER",
  text: '"TEXT"',
  date: "DATE",
  bound: "LIMITS",
  condition: "CONDITION",
  source: 'REFERENCE "PLACE"',
};

/** A form as a person reads it: `draw QUANTITY from NAMES into NAME`. */
export function showForm(text: string): string {
  return text.replace(/<([^:>]+):([^>]+)>/g, (_, slot: string, type: string) => {
    if ((type === "name" || type === "names") && slot !== "value") return slot.replace("?", "").toUpperCase();
    return slotWords[type] ?? type.split("|").join(" / ");
  });
}
