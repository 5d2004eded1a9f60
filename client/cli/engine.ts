/**
 * The language as the command line uses it. The only file that names the language's own modules; each is loaded when first asked
 * for, because `misce format` needs no checks and `misce --version` needs nothing.
 */
import type { Engine } from "./engine-contract.ts";

export const engine: Engine = {
  async library(options) {
    const { Library } = await import("../../language/library.ts");
    return new Library(options);
  },
  async checks() {
    const { allChecks } = await import("../../language/checks/registry.ts");
    const { approvalChecks } = await import("../../language/compare/approval-checks.ts");
    return [...allChecks, ...approvalChecks];
  },
  async formatText() {
    const { formatText } = await import("../../language/syntax/formatter.ts");
    return formatText;
  },
  async words() {
    const { languageBlocks } = await import("../../language/answers/language-words.ts");
    return languageBlocks();
  },
  async tradeWord() {
    const { tradeWord } = await import("../../language/answers/words-of-the-trade.ts");
    return tradeWord;
  },
  async recipesOnly() {
    const { recipesOnly } = await import("../../language/model/lone-declaration.ts");
    return recipesOnly;
  },
  async meanings() {
    const { meaningMaker } = await import("../../language/compare/meaning-maker.ts");
    return meaningMaker;
  },
  async sheets() {
    const { sheetMaker } = await import("../../language/sheet/sheet-maker.ts");
    return sheetMaker;
  },
  async exporter() {
    const { exporter } = await import("../../language/export/exporter.ts");
    return exporter;
  },
  async adviser() {
    const { adviser } = await import("../../language/planning/adviser.ts");
    return adviser;
  },
};
