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
    return allChecks;
  },
  async formatText() {
    const { formatText } = await import("../../language/syntax/formatter.ts");
    return formatText;
  },
};
