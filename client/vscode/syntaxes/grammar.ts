/**
 * The TextMate grammar for first paint: what VS Code colours before the server has answered. It is made from the language's own
 * words, which come in as a value (a client does not import the language); tests/vscode/generated.test.ts supplies them and
 * keeps the JSON beside this file up to date. The server's semantic tokens then colour by meaning.
 */

export interface GrammarWords {
  declarations: readonly string[];
  /** Blocks inside a recipe or another declaration, without `steps` and `materials`. */
  blocks: readonly string[];
  facts: readonly string[];
  verbs: readonly string[];
  glue: readonly string[];
  trailing: readonly string[];
  claims: readonly string[];
  values: readonly string[];
  /** Unit spellings that may stand alone or as a part of a compound one. */
  units: readonly string[];
}

interface Rule {
  name?: string;
  match?: string;
  begin?: string;
  end?: string;
  captures?: Record<string, { name: string }>;
  beginCaptures?: Record<string, { name: string }>;
  endCaptures?: Record<string, { name: string }>;
  include?: string;
  patterns?: Rule[];
}

export interface Grammar {
  $schema: string;
  comment: string;
  name: string;
  scopeName: string;
  fileTypes: string[];
  patterns: Rule[];
  repository: Record<string, Rule>;
}

/** A name: letter first, single inner `-`, and `.` only before a digit. */
const nameText = String.raw`[A-Za-z](?:[A-Za-z0-9]|-(?=[A-Za-z0-9])|\.(?=[0-9]))*`;
/** What a whole word is not followed by: the rest of a longer name. */
const wordEnd = String.raw`(?![A-Za-z0-9_-]|\.[0-9])`;
const wordStart = "(?<![A-Za-z0-9_.-])";
const numberText = String.raw`(?:\.?\d(?:[\d.,\x{2009}\x{202F}]*\d)?)(?: (?:million|thousand))?`;

export function grammarOf(words: GrammarWords): Grammar {
  const inside = ["comment", "string", "claim", "quantity", "date", "number", "word"].map((n) => ({
    include: `#${n}`,
  }));
  return {
    $schema: "https://raw.githubusercontent.com/martinring/tmlanguage/master/tmlanguage.json",
    comment: "Made from the language's own words by `npm run pages`; see grammar.ts.",
    name: "Misce",
    scopeName: "source.misce",
    fileTypes: ["misce"],
    patterns: [
      { include: "#comment" },
      { include: "#declaration" },
      { include: "#steps" },
      { include: "#materials" },
      { include: "#block" },
      { include: "#deviation" },
      { include: "#fact" },
      ...inside,
      { include: "#brace" },
    ],
    repository: {
      comment: { name: "comment.line.number-sign.misce", match: String.raw`(?:^|(?<=\s))#.*$` },
      string: {
        name: "string.quoted.double.misce",
        begin: '["“”]',
        end: '["“”]|$',
        patterns: [{ name: "constant.character.escape.misce", match: String.raw`\\["\\]` }],
      },
      declaration: {
        match: String.raw`^\s*(${oneOf(words.declarations)})(?:\s+(${nameText}))?\s*(?=\{)`,
        captures: { "1": { name: "storage.type.declaration.misce" }, "2": { name: "entity.name.type.misce" } },
      },
      block: {
        match: String.raw`^\s*(${oneOf(words.blocks)})(?:\s+(${nameText}))?(?=\s*(?:"[^"]*"\s*)?\{)`,
        captures: { "1": { name: "keyword.other.block.misce" }, "2": { name: "variable.other.misce" } },
      },
      deviation: {
        match: String.raw`^\s*(deviation)\s+(${nameText})`,
        captures: { "1": { name: "keyword.other.block.misce" }, "2": { name: "entity.name.tag.misce" } },
      },
      fact: {
        match: String.raw`^\s*(${oneOf(words.facts)})${wordEnd}`,
        captures: { "1": { name: "variable.other.property.misce" } },
      },
      steps: {
        ...braced("steps", "keyword.other.block.misce"),
        patterns: [{ include: "#only" }, { include: "#verb" }, ...inside],
      },
      only: {
        begin: String.raw`^\s*(only)\s+(when)${wordEnd}`,
        beginCaptures: { "1": { name: "keyword.control.misce" }, "2": { name: "keyword.control.misce" } },
        end: String.raw`\}`,
        patterns: [{ include: "#verb" }, ...inside, { include: "#brace" }],
      },
      verb: {
        match: String.raw`^\s*(${oneOf(words.verbs)})${wordEnd}`,
        captures: { "1": { name: "keyword.control.verb.misce" } },
      },
      materials: {
        ...braced("materials", "keyword.other.block.misce"),
        patterns: [
          {
            match: String.raw`^\s*(?:(\d+)\s*([x×])\s+)?(${nameText})(?:\s+(?:(\d+)\s*([x×])\s+)?(${nameText}))?`,
            captures: {
              "1": { name: "constant.numeric.misce" },
              "2": { name: "keyword.other.misce" },
              "3": { name: "variable.other.constant.misce" },
              "4": { name: "constant.numeric.misce" },
              "5": { name: "keyword.other.misce" },
              "6": { name: "entity.name.type.misce" },
            },
          },
          ...inside,
        ],
      },
      claim: {
        match: String.raw`(?<=\s)(=|(?:${oneOf(words.claims)})${wordEnd})`,
        captures: { "1": { name: "keyword.operator.claim.misce" } },
      },
      date: {
        name: "constant.other.date.misce",
        match: String.raw`(?<![\w.-])(?:19|20)\d\d-\d\d(?:-\d\d)?(?![\w-])`,
      },
      quantity: {
        match: String.raw`(?<![\w.-])(-?${numberText})\s+((?:${oneOf(words.units)})(?:/(?:\d+ ?)?(?:${oneOf(words.units)}))*|%(?:\s+(?:w/v|v/v|w/w))?)(?![\w/])`,
        captures: { "1": { name: "constant.numeric.misce" }, "2": { name: "keyword.other.unit.misce" } },
      },
      number: { name: "constant.numeric.misce", match: String.raw`(?<![\w.#-])-?${numberText}(?![\w-])` },
      word: {
        match: `${wordStart}(?:(${oneOf(words.trailing)})|(${oneOf([...words.glue, ...words.values])}))${wordEnd}`,
        captures: { "1": { name: "keyword.other.trailing.misce" }, "2": { name: "keyword.other.misce" } },
      },
      brace: { name: "punctuation.section.block.misce", match: "[{}]" },
    },
  };
}

function braced(word: string, scope: string): Rule {
  return {
    begin: String.raw`^\s*(${word})\s*(\{)`,
    beginCaptures: { "1": { name: scope }, "2": { name: "punctuation.section.block.misce" } },
    end: String.raw`\}`,
    endCaptures: { "0": { name: "punctuation.section.block.misce" } },
  };
}

/** Longest first, so that `mcL` is not read as `m` and a rest. */
function oneOf(words: readonly string[]): string {
  return [...new Set(words)]
    .sort((a, b) => b.length - a.length || (a < b ? -1 : 1))
    .map((w) => w.replace(/[.*+?^${}()|[\]\\/]/g, "\\$&"))
    .join("|");
}
