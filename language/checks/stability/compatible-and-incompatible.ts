import { declarationCheck } from "../check.ts";
import { example } from "../example.ts";

const compatible = "  compatible     sodium-chloride-0.9\n";

export const compatibleAndIncompatible = declarationCheck({
  name: "compatible-and-incompatible",
  family: "stability",
  severity: "error",
  title: "A drug that is declared both compatible and incompatible with one thing",
  why: "One of the two is wrong, and a reader finds whichever he looks for.",
  source: "common practice",
  bad: example([compatible, `${compatible}  compatible     glucose-5\n  incompatible   glucose-5\n`], fluid()),
  good: example([compatible, `${compatible}  incompatible   glucose-5\n`], fluid()),
  *find({ declaration }) {
    if (declaration.kind !== "drug") return;
    const good = declaration.facts.all("compatible");
    for (const bad of declaration.facts.all("incompatible")) {
      const other = good.find((f) => f.slots.what.name === bad.slots.what.name);
      if (other) yield { at: bad, other, what: bad.slots.what.name };
    }
  },
  say: ({ what, other }) => ({
    text: `${what} is declared incompatible here and compatible elsewhere in this drug; it is treated as incompatible. Take out the line that is wrong.`,
    related: [{ at: other, text: "declared compatible here" }],
  }),
});

function fluid(): [string, string] {
  return [
    "stock magnesium-ampoule {",
    `fluid glucose-5 {
  source      guide "fluids"
  name        "glucose 5 % w/v"
  osmolarity  278 mOsm/L
  use         injection
}

stock magnesium-ampoule {`,
  ];
}
