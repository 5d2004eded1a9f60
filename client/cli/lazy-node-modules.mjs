/**
 * esbuild plugin: Node's own modules that most runs never use are loaded when one of their parts is first used. Loading these three
 * costs every start of the program some 15 ms.
 */
import { builtinModules, createRequire } from "node:module";

const lazy = /^(?:node:)?(child_process|crypto|worker_threads)$/;
const require = createRequire(import.meta.url);

export const lazyNodeModules = {
  name: "lazy-node-modules",
  setup(build) {
    build.onResolve({ filter: lazy }, ({ path, namespace }) =>
      namespace === "lazy-node-modules" ? { path, external: true } : { path, namespace: "lazy-node-modules" },
    );
    build.onLoad({ filter: lazy, namespace: "lazy-node-modules" }, ({ path }) => {
      const [, name] = lazy.exec(path);
      if (!builtinModules.includes(name)) throw new Error(`Node has no module ${name}`);
      const parts = Object.keys(require(`node:${name}`)).map((part) => `get ${part}() { return whole().${part}; }`);
      const contents = `
        let loaded;
        const whole = () => (loaded ??= require("node:${name}"));
        module.exports = { ${parts.join(",\n")} };`;
      return { contents, loader: "js" };
    });
  },
};
