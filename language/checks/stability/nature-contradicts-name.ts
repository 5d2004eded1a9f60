import type { Spot } from "../../model/slots.ts";
import { declarationCheck } from "../check.ts";
import { example } from "../example.ts";
import { isNotKnown } from "../unread-facts.ts";
import { type Particles, wordOfParticles } from "./natures.ts";

interface Unlike {
  at: Spot;
  drug: string;
  word: string;
  nature: Particles;
  stated: string | undefined;
}

const name = '  name           "magnesium sulfate heptahydrate"\n';
const dose = "  dose           from 500 mg up to 10 g for any route\n";
const filter = "  filter         never below 1 micrometre\n";
const title: [string, string] = ['"Magnesium sulfate 4 g', '"Liposomal magnesium sulfate 4 g'];
const liposomal: [string, string] = [name, '  name           "magnesium sulfate heptahydrate liposomal"\n'];

export const natureContradictsName = declarationCheck<Unlike>({
  name: "nature-contradicts-name",
  family: "stability",
  severity: "warning",
  title: "A name that says liposomal, emulsion or suspension, and a monograph that does not",
  why: "By what a drug is made of it is filtered, shaken and looked at; of a solution nobody asks.",
  source: "common practice",
  bad: example(liposomal, title, [dose, `${dose}${filter}`]),
  good: example(liposomal, title, [dose, `${dose}${filter}  nature         lipid-complex\n`]),
  *find({ declaration }) {
    if (declaration.kind !== "drug") return;
    const { facts } = declaration;
    const said = wordOfParticles(declaration);
    const fact = facts.one("nature");
    const stated = fact?.slots.nature.choice;
    if (!said || stated === said.nature || (!fact && isNotKnown(facts, "nature"))) return;
    // Liposomes may be called a suspension, and a lipid emulsion a lipid complex: only a solution is something else.
    if (stated !== undefined && stated !== "solution") return;
    yield { at: fact ?? declaration.name, drug: declaration.name.name, word: said.word, nature: said.nature, stated };
  },
  say: ({ drug, word, nature, stated }) => ({
    text: `${drug} is ${word} by its name, and its monograph ${stated === undefined ? "states no `nature`" : `says \`nature ${stated}\``}. Write \`nature ${nature}\` where that is so; otherwise correct the name.`,
  }),
});
