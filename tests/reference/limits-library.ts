/**
 * One small library for the rows of published limits: a drug with the row's limit as its fact, made up exactly to a strength in one
 * container (the devices have no scale, so that nothing is rounded), and the findings of that limit's family that a check gives.
 */
import { Library } from "../../language/library.ts";

export interface Limited {
  /** Facts of the drug. */
  drug: string;
  /** Strength of its stock. */
  strength: string;
  dose: string;
  /** Volume of the finished container. */
  to: string;
  order?: string;
  site?: string;
  /** Further facts of the stock, the fluid or the preparation. */
  fluid?: string;
  preparation?: string;
}

const watched: ReadonlySet<string> = new Set([
  "concentration-above-limit",
  "concentration-below-limit",
  "concentration-unusual",
  "concentrate-given-undiluted",
  "rate-above-limit",
  "dose-outside-window",
  "osmolarity-too-high-for-peripheral",
  "limit-not-compared",
  "osmolarity-not-computed",
  "rate-below-limit",
  // A case that is not understood as it was meant must not pass as silent.
  "fact-not-understood",
  "unknown-fact",
  "step-not-understood",
  "amount-not-computable",
  "dose-not-delivered",
  "dose-not-compared",
  "figure-not-known",
  "wrong-dimension",
  "unknown-name",
]);

export function limitedText(of: Limited): string {
  return `site {
  name  "Kestrel Quay Infirmary"
  ${of.site ?? ""}
}
device plain-syringe {
  kind      syringe
  capacity  1000 L
}
drug remedy {
  name  "remedy of the published limits"
  ${of.drug}
}
fluid vehicle {
  name        "vehicle"
  osmolarity  0 mOsm/L
  ${of.fluid ?? ""}
}
stock source {
  drug       remedy
  container  bottle
  strength   ${of.strength}
  fill       1000 L
  capacity   1000 L
}
stock tank {
  fluid      vehicle
  container  bottle
  fill       1000 L
  capacity   1000 L
}
stock flask {
  fluid      vehicle
  container  empty-bottle
  capacity   1000 L
}
recipe limited {
  order {
    drug   remedy
    dose   ${of.dose} per flask
    route  intravenous
    ${of.order ?? ""}
  }
  materials {
    source   source
    tank     tank
    flask    flask
    syringe  plain-syringe
    spare    plain-syringe
  }
  steps {
    draw ${of.dose} from source into syringe
    inject syringe into flask
    make up flask to ${of.to} with tank using spare
    mix flask by inverting
  }
  preparation flask {
    ${of.preparation ?? "form  solution-for-infusion"}
  }
}
`;
}

/** Names of what is found, each once. */
export function limitFindings(of: Limited): string[] {
  const library = new Library({ asOf: "2026-11-25" });
  library.open("limited.misce", limitedText(of));
  return [...new Set(library.findings("limited.misce").map((f) => f.name))].filter((name) => watched.has(name));
}
