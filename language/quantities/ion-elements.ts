/** Ions that are one atom of an element, so that a formula can be asked how many it holds. */

export interface IonElement {
  symbol: string;
  /** Drugs hold it in other bonds too (chlorine in the molecule, chloride beside it), so the formula may hold more of it. */
  isAlsoBound: boolean;
}

const elements: Readonly<Record<string, IonElement>> = {
  sodium: { symbol: "Na", isAlsoBound: false },
  potassium: { symbol: "K", isAlsoBound: false },
  lithium: { symbol: "Li", isAlsoBound: false },
  magnesium: { symbol: "Mg", isAlsoBound: false },
  calcium: { symbol: "Ca", isAlsoBound: false },
  zinc: { symbol: "Zn", isAlsoBound: false },
  chloride: { symbol: "Cl", isAlsoBound: true },
};

export function ionElement(ion: string): IonElement | undefined {
  return Object.hasOwn(elements, ion) ? elements[ion] : undefined;
}
