/** Ways of writing the same otherwise: each takes the texts of a library and gives texts that mean the same. */
import { builtInDevices } from "../../language/model/built-in-devices.ts";
import type { Texts } from "./samples.ts";
import { type Block, eachBlock, isBlock, type Statement, statementsOf, textOf, wordOf } from "./statements.ts";

export interface Rewriting {
  what: string;
  rewrite(texts: Texts): Texts;
  /** Only places and layout change, so that every message must be the same word for word. */
  keepsWords?: true;
  /** What is left out is a second figure, which tells a wrong first one; only what is in order means the same without it. */
  isForRight?: true;
  /** Findings of which the words speak of the way of writing, so that they come or go with it. */
  ofWriting?: readonly string[];
}

const each =
  (change: (text: string) => string) =>
  (texts: Texts): Texts =>
    new Map([...texts].map(([file, text]) => [file, change(text)]));

/** A fact; a `source` below another line would be that line's own. */
const isMovable = (s: Statement) => !isBlock(s) && wordOf(s) !== "source";

/** Lines of which the order is their meaning. */
const inOrder: ReadonlySet<string> = new Set(["steps", "bands", "only"]);

const reversedFacts = each((text) =>
  textOf(
    eachBlock(statementsOf(text), (block) => {
      if (inOrder.has(wordOf(block))) return block.inner;
      const facts = block.inner.filter(isMovable);
      return block.inner.map((s) => (isMovable(s) ? facts.pop()! : s));
    }),
  ),
);

const reversedBlocks = each((text) =>
  textOf(
    eachBlock(statementsOf(text), (block) => {
      if (inOrder.has(wordOf(block))) return block.inner;
      const blocks = block.inner.filter(isBlock);
      return block.inner.map((s) => (isBlock(s) ? blocks.pop()! : s));
    }),
  ),
);

/** Blocks before the facts that stand beside them. */
const blocksFirst = each((text) =>
  textOf(
    eachBlock(statementsOf(text), ({ head, inner }) =>
      inOrder.has(head.trim().split(/\s+/)[0]!)
        ? inner
        : [...inner.filter((s) => wordOf(s) === "source"), ...inner.filter(isBlock), ...inner.filter(isMovable)],
    ),
  ),
);

const declarationsOf = (text: string): Block[] => statementsOf(text).filter(isBlock);

const reversedDeclarations = each((text) => textOf([...declarationsOf(text)].reverse()));

const ownFiles = (texts: Texts): Texts => {
  const all = [...texts.values()].flatMap(declarationsOf);
  // The last stands in the first file.
  return new Map(all.map((block, k) => [`part-${String(all.length - k).padStart(4, "0")}.misce`, textOf([block])]));
};

const oneFile = (texts: Texts): Texts => new Map([["whole.misce", [...texts.values()].reverse().join("\n")]]);

/** Changes what stands outside texts in quotes and comments, line by line. */
function words(change: (bare: string) => string): (texts: Texts) => Texts {
  return each((text) =>
    text
      .split("\n")
      .map((line) => {
        const parts = line.match(/"[^"]*"|#.*$|[^"#]+/g) ?? [];
        return parts.map((part) => (/^["#]/.test(part) ? part : change(part))).join("");
      })
      .join("\n"),
  );
}

const figure = "(?<![\\w.,-])(\\d[\\d,]*(?:\\.\\d+)?)";

/** Every quantity of a unit in another one that is `factor` times smaller. */
function inUnit(unit: string, other: string, factor: number): (texts: Texts) => Texts {
  const pattern = new RegExp(`${figure} ${unit}(?![\\w/.])`, "g");
  return words((bare) => bare.replace(pattern, (_, number: string) => `${times(number, factor)} ${other}`));
}

function times(written: string, factor: number): string {
  const [whole = "", part = ""] = written.replaceAll(",", "").split(".");
  const scale = 10n ** BigInt(part.length);
  const value = BigInt(whole + part) * BigInt(factor);
  const rest = (value % scale).toString().padStart(part.length, "0").replace(/0+$/, "");
  const shown = (value / scale).toString().replace(/\B(?=(\d{3})+$)/g, ",");
  return rest === "" ? shown : `${shown}.${rest}`;
}

/** `disinfect mag, bag` as a line for each. */
const oneEach = each((text) =>
  text
    .split("\n")
    .flatMap((line) => {
      const [, head = "", names = "", tail = ""] =
        /^(\s+(?:disinfect|tap|open|inspect|seal|label|discard) )([\w.-]+(?:, [\w.-]+)+)()$/.exec(line) ?? [];
      return names === "" ? [line] : names.split(", ").map((name) => head + name + tail);
    })
    .join("\n"),
);

/** The source of a declaration beside every fact that takes one. */
const sourced = new Set(
  "compatible incompatible dose concentration rate light usual-concentration filter in-line-filter mixing ph density osmolarity overfill never salt".split(
    " ",
  ),
);
const sourceBeside = each((text) =>
  textOf(
    statementsOf(text).map((s) => {
      if (!isBlock(s) || !["drug", "fluid", "stock"].includes(wordOf(s))) return s;
      const own = s.inner.find((fact) => wordOf(fact) === "source");
      if (!own || isBlock(own)) return s;
      const inner: Statement[] = s.inner.map((fact) =>
        isBlock(fact) || !sourced.has(wordOf(fact)) || / source /.test(fact.join(" "))
          ? fact
          : [`${fact[0]}  ${own[0]!.trim()}`, ...fact.slice(1)],
      );
      return { ...s, inner };
    }),
  ),
);

const strengthInVolume = each((text) =>
  text.replace(
    /^( {2}strength +)([\d.,]+) (m?c?g)\/mL(?=$| )/gm,
    (_, head, number, unit) => `${head}${times(number, 3)} ${unit} in 3 mL`,
  ),
);

const dated = (texts: Texts) =>
  each((text) =>
    text.replace(/(expires +)(\d{4})-(\d{2})$/gm, (_, head, year, month) => {
      const last = new Date(Date.UTC(Number(year), Number(month), 0)).getUTCDate();
      return `${head}${year}-${month}-${last}`;
    }),
  )(texts);

/** The order's dose by its own word, where a draw says it in figures. */
const doseByWord = each((text) => {
  const dose = /^ {4}dose +(\S+ \S+) per /m.exec(text)?.[1];
  const isSeveral = /^ {4}(?:additive|makes|target|weight|body-surface|round|minimum|maximum) /m.test(text);
  return dose === undefined || isSeveral ? text : text.replace(`    draw ${dose} from `, "    draw dose from ");
});

const asAdditive = each((text) => {
  const drug = /^ {4}drug +(\S+)\n/m.exec(text)?.[1];
  const dose = /^ {4}dose +(\S+ \S+ per \S+)\n/m.exec(text)?.[1];
  // What is said of the one dose is not said of additives.
  if (
    drug === undefined ||
    dose === undefined ||
    /^ {4}(?:round|maximum|minimum|weight|concentration +\S+ \S+ per) |\bdose from\b/m.test(text)
  )
    return text;
  return text.replace(/^ {4}drug +\S+\n/m, "").replace(/^ {4}dose +.*\n/m, `    additive  ${drug} ${dose}\n`);
});

const percent = words((w) =>
  w.replace(/(?<![\w.,-])([\d.,]+) mg\/mL/g, (_, number: string) => `${tenth(number)} % w/v`),
);

function tenth(written: string): string {
  const [whole = "", part = ""] = written.replaceAll(",", "").split(".");
  const digits = whole.padStart(2, "0");
  const decimals = `${digits.slice(-1)}${part}`.replace(/0+$/, "");
  const shown = digits.slice(0, -1).replace(/\B(?=(\d{3})+$)/g, ",");
  return decimals === "" ? shown : `${shown}.${decimals}`;
}

/** `check label and expiry of mag, bag`, `keep mag, bag for check` as a line for each. */
const checkedEach = each((text) =>
  text
    .split("\n")
    .flatMap((line) => {
      const [, head, names, tail = ""] =
        /^(\s+check label and expiry of )([\w.-]+(?:, [\w.-]+)+)()$/.exec(line) ??
        /^(\s+keep )([\w.-]+(?:, [\w.-]+)+)( for check)$/.exec(line) ??
        [];
      return names === undefined ? [line] : names.split(", ").map((name) => head + name + tail);
    })
    .join("\n"),
);

const namesBackwards = each((text) =>
  text.replace(
    /^(\s+(?:check label and expiry of|disinfect|keep) )([\w.-]+(?:, [\w.-]+)+)(?=$| for check$)/gm,
    (_, head, names) => head + names.split(", ").reverse().join(", "),
  ),
);

const inTwoSteps = each((text) =>
  text.replace(/^( +)replace (\S+) on (\S+) with (\S+)$/gm, "$1remove $2 from $3\n$1attach $4 to $3"),
);

/** `draw 4 g from mag into syringe  = 8 mL` by its volume. */
const drawnByVolume = each((text) =>
  text.replace(/^( +draw )[\d.,]+ (?:m?c?g|mmol|units) (from .*?) {2}= ([\d.,]+ mL)$/gm, "$1$3 $2"),
);

/** Built-in devices declared by the library under names of its own. */
const ownDevices = (texts: Texts): Texts => {
  const pattern = /(?<= )(?:syringe-\d+mL|needle-\d+-gauge|filter-needle-5um)$/gm;
  const used = new Set([...texts.values()].flatMap((t) => t.match(pattern) ?? []));
  if (used.size === 0) return texts;
  const declared = builtInDevices()
    .filter(({ lone }) => used.has(lone.name.name))
    .map(({ text }) => text.trim().replace("device ", "device ward-"));
  return new Map([
    ...each((t) => t.replace(pattern, "ward-$&"))(texts),
    ["own-devices.misce", `${declared.join("\n\n")}\n`],
  ]);
};

const withoutClaims = each((text) => text.replace(/ {2}= [\d.,]+ \S+(?: to [\d.,]+ \S+)?$/gm, ""));

const withoutStrengths = each((text) =>
  text.replace(/^ {4}(?:nominal-)?concentration +(?:[a-z][\w-]* )?[\d.,]+ \S+(?: (?:of|as) \S+)?\n/gm, ""),
);

export const rewritings: readonly Rewriting[] = [
  { what: "facts of a block from the last to the first", rewrite: reversedFacts, keepsWords: true },
  { what: "blocks of a declaration from the last to the first", rewrite: reversedBlocks, keepsWords: true },
  { what: "blocks before facts", rewrite: blocksFirst, keepsWords: true },
  { what: "declarations of a file from the last to the first", rewrite: reversedDeclarations, keepsWords: true },
  { what: "each declaration in a file of its own", rewrite: ownFiles, keepsWords: true },
  { what: "all declarations in one file", rewrite: oneFile, keepsWords: true },
  { what: "lines that end in CR and LF", rewrite: each((t) => t.replaceAll("\n", "\r\n")), keepsWords: true },
  { what: "tabs between and before words", rewrite: each((t) => t.replace(/ {2,}/g, "\t")), keepsWords: true },
  {
    what: "one blank between words, none before",
    rewrite: each((t) => t.replace(/ {2,}/g, " ").replace(/^ /gm, "")),
    keepsWords: true,
  },
  {
    what: "blank lines and comments between all lines, blanks behind them",
    // What continues a line stands right below it.
    rewrite: each((t) => `\n\n${t.replace(/\n(?! +(?:because|by|until|source) )/g, "  \n  # a remark: = 8 mL {\n\n")}`),
    keepsWords: true,
  },
  {
    what: "a comment behind every line",
    rewrite: each((t) => t.replace(/(\S)\n/g, "$1  # a remark } 5 mg\n")),
    keepsWords: true,
  },
  { what: "grams in mg", rewrite: inUnit("g", "mg", 1_000), ofWriting: ["small-decimal"] },
  { what: "milligrams in mcg", rewrite: inUnit("mg", "mcg", 1_000), ofWriting: ["many-decimals"] },
  { what: "mg/mL in mcg/mL", rewrite: inUnit("mg/mL", "mcg/mL", 1_000) },
  { what: "mg/mL in g/L", rewrite: inUnit("mg/mL", "g/L", 1) },
  { what: "millilitres in microlitres", rewrite: inUnit("mL", "microlitres", 1_000) },
  {
    what: "hours in minutes",
    rewrite: inUnit("h", "min", 60),
    ofWriting: ["number-with-two-readings", "trailing-zero"],
  },
  { what: "days in hours", rewrite: inUnit("days", "h", 24) },
  {
    what: "mcg as micrograms",
    rewrite: words((w) => w.replace(/ mcg(?![\w])/g, " micrograms")),
    ofWriting: ["micrograms-shortened"],
  },
  { what: "a line for each thing that is disinfected, opened, sealed", rewrite: oneEach },
  { what: "the source of a declaration beside each fact", rewrite: sourceBeside },
  { what: "a strength as an amount in a volume", rewrite: strengthInVolume },
  { what: "an expiry by month as its last day", rewrite: dated },
  { what: "the ordered dose drawn by its word", rewrite: doseByWord },
  { what: "the one drug as the one additive", rewrite: asAdditive },
  { what: "a line for each thing that is checked or kept", rewrite: checkedEach },
  { what: "lists of things from the last to the first", rewrite: namesBackwards },
  { what: "a part replaced in two steps", rewrite: inTwoSteps },
  { what: "mg/mL as a percentage", rewrite: percent },
  { what: "draws by their volumes", rewrite: drawnByVolume, isForRight: true },
  { what: "devices declared by the library", rewrite: ownDevices },
  { what: "figures beside steps left out", rewrite: withoutClaims, isForRight: true },
  { what: "concentrations of preparations left out", rewrite: withoutStrengths, isForRight: true },
];
