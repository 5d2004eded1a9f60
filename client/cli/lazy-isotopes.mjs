/**
 * esbuild plugin: tables of isotopes that a library of chemical elements works out whenever it is loaded are worked out when somebody
 * asks. Counting the atoms of a formula asks for none, and they cost every start of the program some 10 ms.
 */
import { readFileSync } from "node:fs";

const tables =
  /[\\/]chemical-elements[\\/]lib[\\/]src[\\/](elementsAndStableIsotopes|elementsAndStableIsotopesObject|isotopesObject|stableIsotopesObject)\.js$/;

export const lazyIsotopes = {
  name: "lazy-isotopes",
  setup(build) {
    build.onLoad({ filter: tables }, ({ path }) => {
      const [, table] = tables.exec(path);
      const contents = `
        "use strict";
        let made;
        function make(exports) {
          ${readFileSync(path, "utf8")}
        }
        Object.defineProperty(exports, "__esModule", { value: true });
        Object.defineProperty(exports, "${table}", {
          enumerable: true,
          get() {
            if (made === undefined) make((made = {}));
            return made.${table};
          },
        });`;
      return { contents, loader: "js" };
    });
  },
};
