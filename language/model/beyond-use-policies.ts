/** All editions that a site may name, with those of Canada, the United Kingdom and the older British codex. */
import { limit, type PolicyEdition, type PolicyRow, type TablePlace } from "./beyond-use-policy.ts";
import { unitedStates } from "./beyond-use-policy-us.ts";

const napra =
  "Model Standards for Pharmacy Compounding of Non-hazardous Sterile Preparations (National Association of Pharmacy Regulatory Authorities, Canada, 2015/2016)";
const sectionTen = "Explaining Section 10 exemption (NHS Specialist Pharmacy Service, quality assurance)";
const clinicalArea =
  "Multiple use of injectable medicines in clinical areas (NHS Specialist Pharmacy Service, V02, February 2020)";

const aseptic = { process: "aseptic", tested: false, components: "any" } as const;
const anyMaking = { process: "any", tested: "any", components: "any" } as const;
const places: readonly TablePlace[] = ["controlled-room-temperature", "refrigerator", "freezer"];

function canadian(risk: "low" | "medium" | "high", limits: readonly string[]): PolicyRow[] {
  return limits.map((text, index) => ({
    ...aseptic,
    id: `napra-${risk} risk-${places[index]}`,
    category: `${risk}-risk`,
    place: places[index]!,
    limit: limit(text),
    footing: "recalled",
    source: napra,
  }));
}

const napraStandards: PolicyEdition = {
  name: "napra-sterile-2016",
  title: napra,
  categories: ["low-risk", "medium-risk", "high-risk", "low-risk-12-h", "immediate-use"],
  rows: [
    ...canadian("low", ["48 h", "14 days", "45 days"]),
    ...canadian("medium", ["30 h", "9 days", "45 days"]),
    ...canadian("high", ["24 h", "3 days", "45 days"]),
    {
      ...aseptic,
      components: "sterile",
      id: "napra-low12",
      category: "low-risk-12-h",
      place: "controlled-room-temperature",
      limit: limit("12 h"),
      footing: "recalled",
      source: napra,
      onlyIf: "it is made outside a compliant buffer area",
    },
    {
      ...anyMaking,
      id: "napra-immediate",
      category: "immediate-use",
      place: "any",
      limit: limit("1 h"),
      footing: "recalled",
      source: napra,
      onlyIf: "it is a simple transfer",
    },
  ],
  inUse: [
    { id: "napra-sdv", container: "single", limit: limit("6 h"), footing: "recalled", source: napra },
    { id: "napra-mdv", container: "multiple", limit: limit("28 days"), footing: "recalled", source: napra },
  ],
};

const ukSectionTen: PolicyEdition = {
  name: "uk-section-10",
  title: sectionTen,
  categories: [],
  rows: [
    {
      ...anyMaking,
      id: "uk-section10",
      category: undefined,
      place: "any",
      limit: limit("7 days"),
      footing: "read",
      source: sectionTen,
      onlyIf: "stability data support the place and the time, in a closed system from licensed sterile products",
    },
  ],
  inUse: [],
};

const ukClinicalArea: PolicyEdition = {
  name: "uk-clinical-area",
  title: clinicalArea,
  categories: [],
  rows: [
    {
      ...anyMaking,
      id: "uk-ward",
      category: undefined,
      place: "any",
      limit: limit("30 min"),
      footing: "read",
      source: clinicalArea,
      onlyIf: "giving starts at once, taken as within 30 minutes",
    },
    {
      ...anyMaking,
      id: "uk-ward-complete",
      category: undefined,
      place: "any",
      limit: limit("24 h"),
      footing: "read",
      source: clinicalArea,
      speaksOf: "end of giving",
    },
  ],
  inUse: [],
};

export const policyEditions: readonly PolicyEdition[] = [...unitedStates, napraStandards, ukSectionTen, ukClinicalArea];

const byName: ReadonlyMap<string, PolicyEdition> = new Map(policyEditions.map((edition) => [edition.name, edition]));

export function policyEdition(name: string): PolicyEdition | undefined {
  return byName.get(name);
}
