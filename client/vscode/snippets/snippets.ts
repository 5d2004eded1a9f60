/**
 * The snippets, made from the sample libraries: a whole declaration of a sample with some of its words turned into places to
 * fill in. What the author may leave to the tool (claims beside a step, the final concentration) is left out, so that no old
 * figure stands behind a new dose. `npm run pages` writes misce.json; a test opens each one in its library and finds nothing.
 */

export interface SnippetSource {
  prefix: string;
  description: string;
  /** File under `samples/`. */
  file: string;
  /** First line of the declaration, without its brace. */
  head: string;
  /** Words of the sample that the author fills in, in the order of the Tab key. The same words elsewhere follow along. */
  fill: readonly string[];
}

const recipes = "library/recipes";

export const snippetSources: readonly SnippetSource[] = [
  {
    prefix: "recipe: ampoule to bag",
    description: "One drug from a glass ampoule, drawn through a filter needle and added to a bag.",
    file: `${recipes}/oxytocin-10-units.misce`,
    head: "recipe oxytocin-10-units",
    fill: [
      "oxytocin-10-units",
      "Oxytocin",
      "oxytocin",
      "10 units",
      "Ringer's lactate",
      "ringer-lactate",
      "1 L",
      "8 h",
      "oxytocin-ampoule",
      "lactate-bag-1000",
      "syringe-3mL",
    ],
  },
  {
    prefix: "recipe: vial to bag",
    description: "One drug from a vial, added to a bag.",
    file: `${recipes}/magnesium-2g.misce`,
    head: "recipe magnesium-2g",
    fill: [
      "magnesium-2g",
      "Magnesium sulfate",
      "magnesium-sulfate",
      "2 g",
      "glucose 5 %",
      "glucose-5",
      "100 mL",
      "60 min",
      "magnesium-vial-10",
      "glucose-bag-100",
      "syringe-5mL",
    ],
  },
  {
    prefix: "recipe: powder vial to bag",
    description: "A powder reconstituted in its vial; the same volume is taken out of the bag first.",
    file: `${recipes}/ceftriaxone-1g.misce`,
    head: "recipe ceftriaxone-1g",
    fill: [
      "ceftriaxone-1g",
      "Ceftriaxone",
      "ceftriaxone",
      "1 g",
      "sodium chloride 0.9 %",
      "sodium-chloride-0.9",
      "50 mL",
      "30 min",
      "ceftriaxone-vial-1000",
      "9.6 mL",
      "saline-bag-50",
    ],
  },
  {
    prefix: "recipe: syringe",
    description: "The syringe is the final container: the drug is drawn and made up to volume.",
    file: `${recipes}/calcium-1g-syringe.misce`,
    head: "recipe calcium-1g-syringe",
    fill: [
      "calcium-1g-syringe",
      "Calcium gluconate",
      "calcium-gluconate",
      "1 g",
      "sodium chloride 0.9 %",
      "sodium-chloride-0.9",
      "50 mL",
      "10 min",
      "calcium-vial-10",
      "saline-bag-100",
    ],
  },
  {
    prefix: "recipe: dilution of a small dose",
    description: "A dose too small to measure: diluted in a labelled intermediate, then drawn from that.",
    file: `${recipes}/digoxin-40mcg.misce`,
    head: "recipe digoxin-40mcg",
    fill: [
      "digoxin-40mcg",
      "Digoxin",
      "digoxin",
      "40 mcg",
      "0.8 mL",
      "digoxin-ampoule",
      "saline-vial-20",
      "2 mL",
      "10 mL",
      "digoxin-50",
      "50 mcg/mL",
    ],
  },
  {
    prefix: "recipe: several additives",
    description: "Two drugs in one bag, mixed after each addition.",
    file: `${recipes}/potassium-magnesium.misce`,
    head: "recipe potassium-magnesium",
    fill: [
      "potassium-magnesium",
      "potassium-chloride",
      "20 mmol",
      "magnesium-sulfate",
      "2 g",
      "glucose-5",
      "1 L",
      "8 h",
      "potassium-vial-10",
      "magnesium-vial-10",
      "glucose-bag-1000",
    ],
  },
  {
    prefix: "recipe: batch of bags",
    description: "Several like bags from one vial in one run.",
    file: `${recipes}/magnesium-2g-batch.misce`,
    head: "recipe magnesium-2g-batch",
    fill: [
      "magnesium-2g-batch",
      "Magnesium sulfate",
      "magnesium-sulfate",
      "2 g",
      "sodium chloride 0.9 %",
      "sodium-chloride-0.9",
      "100 mL",
      "4 x bags",
      "magnesium-vial-50",
      "4 x saline-bag-100",
      "8 g",
      "4 mL",
    ],
  },
  {
    prefix: "recipe: dose by body weight",
    description:
      "A dose that depends on the patient's weight, rounded and capped, with a bag for each band of the dose.",
    file: `${recipes}/vancomycin-loading.misce`,
    head: "recipe vancomycin-loading",
    fill: [
      "vancomycin-loading",
      "Vancomycin",
      "vancomycin",
      "40 kg",
      "120 kg",
      "25 mg/kg",
      "250 mg",
      "2 g",
      "vancomycin-vial-500",
      "4 h",
    ],
  },
  {
    prefix: "recipe: hazardous powder",
    description: "A hazardous drug by closed-transfer devices in a containment cabinet.",
    file: "library-containment/recipes/cyclophosphamide-1g.misce",
    head: "recipe cyclophosphamide-1g",
    fill: [
      "cyclophosphamide-1g",
      "Cyclophosphamide",
      "cyclophosphamide",
      "1 g",
      "sodium chloride 0.9 %",
      "sodium-chloride-0.9",
      "250 mL",
      "60 min",
      "cyclophosphamide-vial-500",
      "saline-bag-250",
    ],
  },
  {
    prefix: "stock: ampoule",
    description: "A glass ampoule kept on the shelf.",
    file: "library/stock/ampoules.misce",
    head: "stock diazepam-ampoule",
    fill: ["diazepam-ampoule", "diazepam", "5 mg/mL", "2 mL"],
  },
  {
    prefix: "stock: powder vial",
    description: "A vial of powder with what its label says about reconstitution.",
    file: "library/stock/powder-vials.misce",
    head: "stock ceftriaxone-vial-1000",
    fill: [
      "ceftriaxone-vial-1000",
      "ceftriaxone",
      "1 g",
      "ceftriaxone-quote",
      "9.6 mL",
      "water-for-injection",
      "100 mg/mL",
      "10 mL",
    ],
  },
  {
    prefix: "stock: bag",
    description: "A bag of fluid.",
    file: "library/stock/fluids.misce",
    head: "stock saline-bag-100",
    fill: ["saline-bag-100", "sodium-chloride-0.9", "100 mL", "150 mL", "polyolefin"],
  },
  {
    prefix: "drug",
    description: "The facts about a drug that the checks need, each with its source.",
    file: "library/drugs/furosemide.misce",
    head: "drug furosemide",
    fill: [
      "furosemide",
      "furosemide-label",
      "kestrel-guide",
      "furosemide-text",
      "sodium-chloride-0.9",
      "10 mg",
      "500 mg",
      "10 mg/mL",
      "4 mg/min",
      "24 h",
    ],
  },
  {
    prefix: "site",
    description: "The policy of one library: its cabinet, tolerances and roles.",
    file: "library/site.misce",
    head: "site",
    fill: ["Kestrel Quay Infirmary", "horizontal-laminar-flow", "5 %", "30 days"],
  },
];

export interface Snippet {
  prefix: string;
  description: string;
  body: string[];
}

/** @param read text of a file under `samples/` */
export function snippets(read: (file: string) => string): Record<string, Snippet> {
  return Object.fromEntries(
    snippetSources.map((source) => {
      const whole = declaration(read(source.file), source.head);
      const start = source.head.startsWith("recipe ") ? withoutClaims(whole) : withoutSampleNotes(whole);
      const body = fillIn(start, source.fill, source.prefix);
      return [source.prefix, { prefix: source.prefix, description: source.description, body: body.split("\n") }];
    }),
  );
}

/** The whole declaration from its first line to the brace at the line's start that ends it. */
function declaration(text: string, head: string): string {
  const start = text.split("\n").indexOf(`${head} {`);
  const lines = text.split("\n").slice(start);
  const end = lines.indexOf("}");
  if (start < 0 || end < 0) throw new Error(`no declaration "${head}" in the sample`);
  return lines.slice(0, end + 1).join("\n");
}

/** What the tool derives; the author states it when the recipe stands. */
function withoutClaims(text: string): string {
  return text
    .split("\n")
    .filter((line) => !/^ {4}(concentration|nominal-concentration) /.test(line))
    .map((line) => line.replace(/ {2}(?:=|giving) .*$/, ""))
    .join("\n");
}

/** That a sample is invented is no part of what an author starts from. */
function withoutSampleNotes(text: string): string {
  return text
    .split("\n")
    .filter((line) => !/^ {2}note .*[Ii]nvented/.test(line))
    .join("\n");
}

function fillIn(text: string, fill: readonly string[], title: string): string {
  const longestFirst = [...fill]
    .sort((a, b) => b.length - a.length)
    .map((w) => w.replace(/[.*+?^${}()|[\]\\]/g, "\\$&"));
  // A place begins and ends where a name does: `magnesium-2g` is no part of `magnesium-2g-batch`.
  const places = new RegExp(`(?<![\\w.-])(?:${longestFirst.join("|")})(?![\\w/-]|\\.\\d)`, "g");
  const met = new Set<string>();
  const filled = text.replaceAll("$", "\\$").replace(places, (word) => {
    met.add(word);
    return `\${${fill.indexOf(word) + 1}:${word}}`;
  });
  for (const word of fill) if (!met.has(word)) throw new Error(`snippet "${title}": the sample does not say "${word}"`);
  return `${filled}\n$0`;
}
