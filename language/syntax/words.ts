/**
 * The reserved words of the language, once. The lexer, the formatter, completion and the checks all read them here, so that
 * a word cannot be reserved in one place and free in another.
 */

/**
 * A file above this many characters (UTF-16 units) is not read. A recipe of 80 lines has some 2,500, so this is a hospital's
 * whole library in one file; beyond it stands no library but a spoilt export, and reading would cost seconds and gigabytes.
 */
export const longestText = 2_000_000;

/** A declaration that holds a line above this many characters is not read either: its line breaks were lost, or it is no text. */
export const longestLine = 20_000;

/** First word of a top-level declaration. */
export const declarationWords = [
  "site",
  "drug",
  "fluid",
  "stock",
  "device",
  "recipe",
  "lots",
  "reference",
  "bands",
] as const;
export type DeclarationWord = (typeof declarationWords)[number];

/** First word of a block inside a recipe; `deviation` is a line without braces. */
export const recipeBlocks = [
  "order",
  "materials",
  "steps",
  "preparation",
  "intermediate",
  "label-text",
  "example",
  "deviation",
] as const;

/** Words between names and figures; never a name. */
export const glueWords = [
  "from",
  "to",
  "into",
  "in",
  "on",
  "of",
  "for",
  "with",
  "using",
  "through",
  "per",
  "at",
  "and",
  "or",
  "x",
] as const;

/** Ends of an interval: `from` and `up to` include, `above` and `below` exclude. */
export const edgeWords = ["from", "up", "above", "below"] as const;

/** Figures that a step may name instead of stating. */
export const figureWords = ["dose", "added-volume", "diluent-volume", "final-volume", "all", "each", "rest"] as const;

/** Claims about a container after a step. */
export const claimWords = ["giving", "leaving"] as const;

/** First words of a line that continues the statement above it. */
export const trailingWords = ["source", "because", "by", "until", "when"] as const;

export const valueWords = ["yes", "no", "none", "any"] as const;

/** Words that follow a bare number and count something; without them here `count 2` would read as a unit. */
export const countWords = ["count", "times"] as const;

/** First word of a step. Elsewhere these are free, so that `filter`, `label` and `needle` stay usable as names. */
export const verbs = [
  "check",
  "tap",
  "disinfect",
  "open",
  "attach",
  "remove",
  "replace",
  "connect",
  "draw",
  "expel",
  "inject",
  "add",
  "reconstitute",
  "swirl",
  "shake",
  "dissolve",
  "wait",
  "withdraw",
  "pool",
  "sample",
  "transfer",
  "fill",
  "prime",
  "start",
  "clamp",
  "activate",
  "make",
  "mix",
  "inspect",
  "pass",
  "test",
  "seal",
  "sterilise",
  "protect",
  "label",
  "keep",
  "discard",
  "note",
  "only",
] as const;

function words(text: string): readonly string[] {
  return text.trim().split(/\s+/);
}

/**
 * First words of a line, by the block they stand in: by them a line whose block is broken is known for what it is. A test holds them
 * to the tables of the model, which this room may not ask.
 */
export const factsByBlock: Readonly<Record<string, readonly string[]>> = {
  site: words(`name cabinet beyond-use tolerance expiry-ahead time-zone month-only approvals role microgram activity thousands
    small-decimals decimals severity never-silenced additive-share smallest-share largest-share needle-punctures
    peripheral-osmolarity air-for-hazardous equal-air-above small-dose pump-step use-within-counts note`),
  drug: words(`name source invented formula ion counted-as salt density nature hazard high-alert compatible incompatible
    added-before together container-material container-kind never dose dose-by-auc concentration usual-concentration rate ph light filter
    in-line-filter mixing dense never-stored confused note`),
  stable: words("source in at concentration made-of light counted-from for"),
  fluid: words("name source invented contains osmolarity ph density use never-alone note"),
  stock:
    words(`drug fluid container strength strength-tolerance content contains osmolarity fill overfill capacity priming-volume density
    empty-weight made-of doses preservative route storage in-use displacement gtin one-filter-for spike vacuum premixed
    looks-like invented source note`),
  reconstitute: words("source with gives withdrawable"),
  device: words("kind capacity graduation scale-of drop-factor pore gauge dead-space priming-volume source note"),
  lots: words("lot"),
  reference: words("title publisher edition year url invented note"),
  bands: words("from source"),
  recipe: words("title note revision"),
  order:
    words(`drug additive target dose concentration round maximum minimum diluent diluent-volume final-volume method makes
    overage route access use population in-line-filter infuse-over infuse-at weight age body-surface lumen clearance`),
  preparation:
    words(`form concentration nominal-concentration volume use-within category sterility filled-weight after-opening
    appearance store`),
  "label-text": words("line"),
  intermediate: words("in at use"),
  example: words("weight age body-surface lumen clearance expect source"),
};

/**
 * Column at which the value of a fact starts, counted from the fact's own first letter, fixed for each kind of block: adding
 * a fact then never re-indents its neighbours (one fact, one changed line). A word too long for its column is followed by two
 * blanks. The numbers are kept by hand so that a new fact word does not re-indent every library.
 */
export const valueColumns: Readonly<Record<string, number>> = {
  site: 16,
  drug: 15,
  stable: 15,
  fluid: 12,
  stock: 14,
  reconstitute: 14,
  device: 12,
  lots: 5,
  reference: 11,
  bands: 6,
  recipe: 7,
  order: 16,
  materials: 12,
  preparation: 16,
  "label-text": 6,
  intermediate: 5,
  example: 8,
};

/** First words of the units that have two words, `international units` and `USP units`, without regard to case. */
export const unitsOfTwoWords: readonly string[] = ["international", "usp", "mega"];

const afterNumber: ReadonlySet<string> = new Set<string>([
  ...glueWords,
  ...edgeWords,
  ...figureWords,
  ...claimWords,
  ...trailingWords,
  ...countWords,
]);

/** Whether a word after a bare number is a word of the language, not a unit. Case does not matter: `5 To 10 mL` is read, with a finding. */
export function isWordAfterNumber(text: string): boolean {
  return afterNumber.has(text) || (text.length < 16 && afterNumber.has(text.toLowerCase()));
}

const trailing: ReadonlySet<string> = new Set<string>(trailingWords);

export function isTrailingWord(text: string): boolean {
  return trailing.has(text) || (text.length < 16 && trailing.has(text.toLowerCase()));
}
