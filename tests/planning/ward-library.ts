/** A small library for plans: one drug in powder vials and ampoules of given sizes, and a recipe by weight or by a fixed dose. */
import { Library } from "../../language/library.ts";

export interface Shelf {
  /** Lines of each stock beside drug and storage, by name. */
  stocks: Record<string, string>;
  /** Lots by stock: `"A1" expires 2027-05`. A stock without an entry has one good lot. */
  lots?: Record<string, readonly string[]>;
  /** The stock that the recipe names. */
  uses: string;
  /** Such as `60 mg per bag`. */
  dose: string;
  /** Further lines of the order. */
  order?: string;
}

export const asOf = "2026-11-25";

export function powder(content: string): string {
  return `container powder-vial\n  content ${content}`;
}

export function ampoule(strength: string, fill: string): string {
  return `container ampoule\n  strength ${strength}\n  fill ${fill}`;
}

export function wardLibrary(shelf: Shelf): Library {
  const library = new Library({ asOf });
  library.open("ward.misce", wardText(shelf));
  return library;
}

function wardText({ stocks, lots = {}, uses, dose, order = "" }: Shelf): string {
  const isPowder = /powder-vial/.test(stocks[uses] ?? "");
  const shelf = Object.entries(stocks).map(([name, lines]) => {
    const own = lots[name] ?? [`"${name.toUpperCase()}-1" expires 2027-12`];
    const list = own.map((lot) => `  lot ${lot}`).join("\n");
    return `stock ${name} {\n  drug remedy\n  ${lines}\n}\nlots ${name} {\n${list}\n}\n`;
  });
  const reconstitute = isPowder ? "    reconstitute each of source with 6 mL from tank using syringe\n" : "";
  return `
site {
  name "Kestrel Quay Infirmary"
}
drug remedy {
  name "remedy"
}
fluid vehicle {
  name "vehicle"
}
stock vehicle-tank {
  fluid vehicle
  container bottle
  fill 1000 L
}
stock empty-flask {
  fluid vehicle
  container empty-bottle
  capacity 1000 L
}
device plain-syringe {
  kind syringe
  capacity 1000 L
}
${shelf.join("")}
recipe ward-dose {
  title "Remedy by weight"
  order {
    drug remedy
    dose ${dose}
    route intravenous
    ${order}
  }
  materials {
    source ${uses}
    tank vehicle-tank
    flask empty-flask
    syringe plain-syringe
  }
  steps {
${reconstitute}    draw dose from source into syringe
    inject syringe into flask
  }
  preparation flask {
    form solution-for-infusion
  }
}
`;
}
