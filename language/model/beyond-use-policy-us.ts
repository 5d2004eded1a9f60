/** Beyond-use tables of the United States: the general chapter in two editions, and two states that print figures of their own. */
import { type InUseRow, limit, type PolicyEdition, type PolicyRow, type TablePlace } from "./beyond-use-policy.ts";

const usp2023 =
  "USP General Chapter <797> Pharmaceutical Compounding - Sterile Preparations, 2023 revision, official 1 November 2023";
const wisconsin =
  "Wisconsin Administrative Code, Phar 15.37 Beyond use dating (State of Wisconsin, current through 25 November 2024)";
const wisconsinImmediate =
  "Wisconsin clearinghouse rule CR 22-007, text recreating Phar 15.34 Immediate use compounded sterile preparations (State of Wisconsin, 2022)";
const california =
  "California Code of Regulations, Title 16, section 1751.9 Single-dose and multi-dose containers (State of California, operative 1 January 2017)";
const nevada =
  "Nevada Administrative Code 639.67067 High-risk sterile compounding: process and storage (State of Nevada, effective 18 September 2008)";
const usp2008 =
  "USP <797> 2008, as restated in study cards on compounding documentation and preparation (public study-card site, chapter 17 deck)";
const usp2008Immediate =
  "Frequently asked questions about USP <797>, immediate-use provision (nuclear medicine society, 2008 chapter)";

const room: TablePlace = "controlled-room-temperature";
const places: readonly TablePlace[] = [room, "refrigerator", "freezer"];

type Kind = Pick<PolicyRow, "category" | "process" | "tested" | "components" | "footing" | "source"> & {
  onlyIf?: string;
  restatedBy?: string;
};

/** One row a place, in the order room, refrigerator, freezer; `-` where no storage is allowed. */
function placed(prefix: string, kind: Kind, limits: readonly string[]): PolicyRow[] {
  return limits.map((text, index) => ({
    ...kind,
    id: `${prefix}-${places[index]}`,
    place: places[index]!,
    limit: text === "-" ? undefined : limit(text),
  }));
}

const any = { process: "any", tested: "any", components: "any" } as const;
const aseptic = { process: "aseptic", tested: false, components: "sterile" } as const;
const nonsterile = { ...aseptic, components: "nonsterile" } as const;
const asepticTested = { process: "aseptic", tested: true, components: "any" } as const;
const terminal = { process: "terminally-sterilised", tested: false, components: "any" } as const;
const terminalTested = { ...terminal, tested: true } as const;

const of2023 = (category: string) => ({ category, footing: "recalled", source: usp2023 }) as const;
const alsoWisconsin = { restatedBy: wisconsin };
const category3 = {
  onlyIf:
    "the Category 3 requirements are met: assay that shows stability, endotoxin and particles, closure, monitoring",
};

const usp797of2023: PolicyEdition = {
  name: "usp-797-2023",
  title: usp2023,
  categories: ["1", "2", "3", "immediate-use"],
  rows: [
    {
      ...any,
      ...of2023("immediate-use"),
      restatedBy: wisconsinImmediate,
      id: "usp23-immediate",
      place: "any",
      limit: limit("4 h"),
      most: { products: 3 },
      onlyIf:
        "at most three different sterile products go in, and giving begins within the time from the start of preparation",
    },
    ...placed("usp23-cat1", { ...any, ...of2023("1"), ...alsoWisconsin }, ["12 h", "24 h"]),
    { ...any, ...of2023("1"), id: "usp23-cat1-freezer", place: "freezer", limit: undefined },
    ...placed("usp23-cat2-aseptic-notest-nonsterile", { ...nonsterile, ...of2023("2"), ...alsoWisconsin }, [
      "1 day",
      "4 days",
      "45 days",
    ]),
    ...placed("usp23-cat2-aseptic-notest-sterile", { ...aseptic, ...of2023("2"), ...alsoWisconsin }, [
      "4 days",
      "10 days",
      "45 days",
    ]),
    ...placed("usp23-cat2-aseptic-tested", { ...asepticTested, ...of2023("2") }, ["30 days", "45 days", "60 days"]).map(
      (row) => (row.place === room ? { ...row, ...alsoWisconsin } : row),
    ),
    ...placed("usp23-cat2-terminal-notest", { ...terminal, ...of2023("2") }, ["14 days", "28 days", "45 days"]),
    ...placed("usp23-cat2-terminal-tested", { ...terminalTested, ...of2023("2") }, ["45 days", "60 days", "90 days"]),
    ...placed("usp23-cat3-aseptic", { ...asepticTested, ...of2023("3"), ...category3 }, [
      "60 days",
      "90 days",
      "120 days",
    ]),
    ...placed("usp23-cat3-terminal", { ...terminalTested, ...of2023("3"), ...category3 }, [
      "90 days",
      "120 days",
      "180 days",
    ]),
  ],
  inUse: [
    inUse("usp23-ampoule", "ampoule", "0 h", "recalled", usp2023, { restatedBy: california }),
    inUse("usp23-sdv-iso5", "single", "12 h", "recalled", usp2023, { onlyIf: "it stays in air of ISO class 5" }),
    inUse("usp23-mdv", "multiple", "28 days", "recalled", usp2023, { restatedBy: california }),
  ],
};

function inUse(
  id: string,
  container: InUseRow["container"],
  text: string,
  footing: InUseRow["footing"],
  source: string,
  more: Pick<InUseRow, "onlyIf" | "restatedBy"> = {},
): InUseRow {
  return { id, container, limit: limit(text), footing, source, ...more };
}

const byState = (category: string) => ({ category, footing: "read", source: wisconsin }) as const;

const wisconsinPhar15: PolicyEdition = {
  name: "wisconsin-phar-15",
  title: wisconsin,
  categories: ["1", "2", "immediate-use"],
  rows: [
    {
      ...any,
      category: "immediate-use",
      footing: "read",
      source: wisconsinImmediate,
      id: "wi-immediate",
      place: "any",
      limit: limit("4 h"),
      most: { packages: 3, entries: 2 },
      onlyIf: "at most three sterile packages go in, with at most two entries into any one container",
    },
    ...placed("wi-cat1", { ...any, ...byState("1") }, ["12 h", "24 h"]),
    ...placed("wi-cat2-aseptic-notest-nonsterile", { ...nonsterile, ...byState("2") }, ["1 day", "4 days", "45 days"]),
    ...placed("wi-cat2-aseptic-notest-sterile", { ...aseptic, ...byState("2") }, ["4 days", "10 days", "45 days"]),
    // The stored text breaks off here: the refrigerator and freezer figures of tested preparations were not seen.
    ...placed("wi-cat2-aseptic-tested", { ...asepticTested, ...byState("2") }, ["30 days"]),
  ],
  inUse: [],
};

const byRisk = (category: string) => ({ ...aseptic, components: "any", category, footing: "read" }) as const;

const usp797of2008: PolicyEdition = {
  name: "usp-797-2008",
  title: "USP General Chapter <797> Pharmaceutical Compounding - Sterile Preparations, 2008 chapter (superseded)",
  categories: ["low-risk", "medium-risk", "high-risk", "immediate-use"],
  rows: [
    {
      ...any,
      category: "immediate-use",
      footing: "read",
      source: usp2008Immediate,
      id: "usp08-immediate",
      place: "any",
      limit: limit("1 h"),
      most: { packages: 3, entries: 2 },
      onlyIf: "at most three packages go in, with at most two entries into any one container",
    },
    ...placed("usp08-low risk", { ...byRisk("low-risk"), source: usp2008 }, ["48 h", "14 days", "45 days"]),
    ...placed("usp08-medium risk", { ...byRisk("medium-risk"), source: usp2008 }, ["30 h", "9 days", "45 days"]),
    ...placed("usp08-high risk", { ...byRisk("high-risk"), source: usp2008 }, ["24 h", "3 days", "45 days"]),
  ],
  inUse: [],
};

const nevada639: PolicyEdition = {
  name: "nevada-nac-639",
  title: nevada,
  categories: ["high-risk"],
  rows: placed("nv-high risk", { ...byRisk("high-risk"), source: nevada }, ["24 h", "3 days", "45 days"]),
  inUse: [],
};

const california1751: PolicyEdition = {
  name: "california-1751-9",
  title: california,
  categories: [],
  // It limits what is left in opened containers and has no table for finished preparations.
  rows: [],
  inUse: [
    inUse("ca-ampoule", "ampoule", "0 h", "read", california),
    inUse("ca-sdv-iso5", "single", "6 h", "read", california, { onlyIf: "it stays in air of ISO class 5 or better" }),
    inUse("ca-mdv", "multiple", "28 days", "read", california, { onlyIf: "it is stored as its maker says" }),
  ],
};

export const unitedStates: readonly PolicyEdition[] = [
  usp797of2023,
  usp797of2008,
  wisconsinPhar15,
  nevada639,
  california1751,
];
