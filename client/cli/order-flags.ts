/** The flags that say for which order: weight, age, body surface, volume of a lumen, clearance. */
export interface OrderFlags {
  weight?: string;
  age?: string;
  bodySurface?: string;
  lumen?: string;
  clearance?: string;
}

/** Input of the order → what was typed. */
export function inputsOf(flags: OrderFlags): Map<string, string> {
  const typed = {
    weight: flags.weight,
    age: flags.age,
    "body-surface": flags.bodySurface,
    lumen: flags.lumen,
    clearance: flags.clearance,
  };
  const inputs = new Map<string, string>();
  for (const [input, value] of Object.entries(typed)) if (value !== undefined) inputs.set(input, value);
  return inputs;
}
