import type { MeasureSlot } from "../../model/slots.ts";
import { declarationCheck } from "../check.ts";
import { example } from "../example.ts";
import { isSterilising, natureInWords, type Particles, particlesOf } from "./natures.ts";

interface TooFine {
  at: MeasureSlot;
  word: "filter" | "in-line-filter";
  isNever: boolean;
  drug: string;
  nature: Particles;
}

const dose = "  dose           from 500 mg up to 10 g for any route\n";
const emulsion = (pore: string): [string, string] => [
  dose,
  `${dose}  nature         emulsion\n  filter         never below ${pore} micrometre\n`,
];

const called: [string, string] = ["form           solution-for-infusion", "form           emulsion-for-infusion"];

export const filterContradictsNature = declarationCheck<TooFine>({
  name: "filter-contradicts-nature",
  family: "stability",
  severity: "error",
  title: "A monograph that asks for, or lets pass, a sterilising filter where the drug is droplets or particles",
  why: "Droplets of an emulsion and liposomes are as large as such a pore or larger; the filter keeps or breaks the drug.",
  source:
    "common practice: lipid emulsions take 1.2 micrometre, filters of 0.2 micrometre are for clear solutions (from memory)",
  bad: example(emulsion("0.2"), called),
  good: example(emulsion("1.2"), called),
  *find({ declaration }) {
    if (declaration.kind !== "drug") return;
    const particles = particlesOf(declaration);
    if (!particles) return;
    for (const word of ["filter", "in-line-filter"] as const) {
      for (const { slots } of declaration.facts.all(word)) {
        const at = slots.pore ?? slots.floor;
        if (at && isSterilising(at.quantity))
          yield { at, word, isNever: slots.never !== undefined, drug: declaration.name.name, nature: particles.nature };
      }
    }
  },
  say: ({ at, word, isNever, drug, nature }) => ({
    text: `${drug} is ${natureInWords(nature)}, and \`${word}\` ${isNever ? "lets it pass" : "asks for"} a filter of ${at.written}, which holds back its ${nature === "emulsion" ? "droplets" : "particles"}. Look at its source: lipid emulsions take 1.2 micrometre.`,
  }),
});
