/** The house keeps its rules: imports run one way, the language touches no machine, and the map names only what is there. */
import { execFileSync, spawnSync } from "node:child_process";
import { existsSync, readdirSync, readFileSync, statSync } from "node:fs";
import { dirname, join, relative } from "node:path";
import { describe, expect, test } from "vitest";

const root = join(import.meta.dirname, "../..");
const sources = ["shared", "language", "server", "client"].flatMap((room) => filesUnder(join(root, room)));

function filesUnder(folder: string): string[] {
  if (!existsSync(folder)) return [];
  return readdirSync(folder, { withFileTypes: true }).flatMap((entry) => {
    const path = join(folder, entry.name);
    if (entry.isDirectory()) return ["node_modules", "dist", "out"].includes(entry.name) ? [] : filesUnder(path);
    return /\.ts$/.test(entry.name) ? [relative(root, path)] : [];
  });
}

const importPattern =
  /(?:^|\n)\s*(?:import|export)\s+(?:type\s+)?(?:[^;"']*?\sfrom\s+)?["']([^"']+)["']|import\(\s*["']([^"']+)["']\s*\)/g;

/** Comments say words such as `import`; they are taken out first. */
function importsOf(file: string): string[] {
  const text = readFileSync(join(root, file), "utf8").replace(/\/\*[\s\S]*?\*\//g, "");
  return [...text.matchAll(importPattern)].map((m) => (m[1] ?? m[2])!);
}

const graph = new Map(sources.map((file) => [file, importsOf(file)]));

function localImports(file: string): string[] {
  return graph
    .get(file)!
    .filter((name) => name.startsWith("."))
    .map((name) => relative(root, join(root, dirname(file), name)));
}

/** From the lowest floor up; a room may use what stands on a lower floor, and itself. */
const floors: Readonly<Record<string, number>> = {
  shared: 0,
  "language/syntax": 1,
  "language/quantities": 1,
  "language/model": 2,
  "language/bench": 3,
  "language/proof": 4,
  "language/checks": 5,
  language: 6,
  server: 7,
  client: 8,
};

function roomOf(file: string): string {
  const [first = "", second = "", third] = file.split("/");
  const inner = `${first}/${second}`;
  return third !== undefined && inner in floors ? inner : first;
}

/** Rooms of the language that stand upon the library itself. */
const uponLibrary = new Set(["answers", "sheet", "compare", "planning", "export"]);

/** A room that no list knows stands beside the checks: above the bench, below the library. */
function floorOf(file: string): number {
  const [first = "", second = "", third] = file.split("/");
  if (first === "language" && third !== undefined && !(`language/${second}` in floors)) {
    return uponLibrary.has(second) ? 6.5 : 5;
  }
  return floors[roomOf(file)] ?? Number.NaN;
}

describe("imports", () => {
  test("there are sources, and each stands in a known room", () => {
    expect(sources.length).toBeGreaterThan(200);
    expect(sources.filter((file) => Number.isNaN(floorOf(file)))).toEqual([]);
  });

  test("run downwards only", () => {
    const upward = sources.flatMap((file) =>
      localImports(file)
        .filter((target) => floorOf(target) > floorOf(file))
        .map((target) => `${file} → ${target}`),
    );
    expect(upward).toEqual([]);
  });

  test("syntax and quantities know neither each other nor anybody else", () => {
    const curious = sources.flatMap((file) => {
      const room = roomOf(file);
      if (room !== "language/syntax" && room !== "language/quantities") return [];
      return localImports(file)
        .filter((target) => roomOf(target) !== room)
        .map((target) => `${file} → ${target}`);
    });
    expect(curious).toEqual([]);
  });

  test("lead to files that are there", () => {
    const lost = sources.flatMap((file) =>
      localImports(file)
        .filter((target) => !existsSync(join(root, target)))
        .map((target) => `${file} → ${target}`),
    );
    expect(lost).toEqual([]);
  });

  test("run in no circle between rooms of the language", () => {
    const rooms = new Map<string, Set<string>>();
    for (const file of sources) {
      const own = roomOf(file);
      for (const target of localImports(file)) {
        const other = roomOf(target);
        if (other !== own) rooms.set(own, (rooms.get(own) ?? new Set()).add(other));
      }
    }
    expect(circleIn(rooms)).toBeUndefined();
  });
});

describe("memory", () => {
  /** Their keys are there from start to end, or they hold nothing that leads back to the key. */
  const harmless = [
    "language/checks/evaluate.ts",
    "language/checks/written/words-against-order.ts",
    "language/library.ts",
    "language/quantities/remembered.ts",
    "language/quantities/unit.ts",
  ];

  test("of what is read anew with each keystroke is kept with it, not in a WeakMap (language/model/kept-with.ts)", () => {
    const kept = sources.filter(
      (file) => file.startsWith("language/") && /new WeakMap\b/.test(readFileSync(join(root, file), "utf8")),
    );
    expect(kept.sort()).toEqual(harmless);
  });
});

/** The first circle found, as the rooms on it; undefined where there is none. */
function circleIn(edges: ReadonlyMap<string, ReadonlySet<string>>): string[] | undefined {
  const done = new Set<string>();
  const walk = (node: string, path: string[]): string[] | undefined => {
    if (path.includes(node)) return [...path.slice(path.indexOf(node)), node];
    if (done.has(node)) return undefined;
    for (const next of edges.get(node) ?? []) {
      const found = walk(next, [...path, node]);
      if (found) return found;
    }
    done.add(node);
    return undefined;
  };
  for (const node of edges.keys()) {
    const found = walk(node, []);
    if (found) return found;
  }
  return undefined;
}

test("a circle is seen", () => {
  expect(
    circleIn(
      new Map([
        ["a", new Set(["b"])],
        ["b", new Set(["c"])],
        ["c", new Set(["b"])],
      ]),
    ),
  ).toEqual(["b", "c", "b"]);
});

describe("the language", () => {
  const language = sources.filter((file) => file.startsWith("language/"));

  test("uses no module of the machine or of an editor", () => {
    const used = language.flatMap((file) =>
      graph
        .get(file)!
        .filter((name) => /^(?:node:|fs$|path$|os$|process$|child_process$|url$|crypto$|vscode)/.test(name))
        .map((name) => `${file}: ${name}`),
    );
    expect(used).toEqual([]);
  });

  test.each([
    ["the process", /\bprocess\.(?:env|argv|cwd|exit|stdin|stdout|stderr|platform|hrtime)\b/],
    ["the clock", /\bDate\.now\b|\bnew Date\(\s*\)|\bperformance\.now\b/],
    ["chance", /\bMath\.random\b/],
    ["the console", /\bconsole\.\w/],
  ])("does not ask %s", (_, pattern) => {
    const asks = language.filter((file) =>
      pattern.test(readFileSync(join(root, file), "utf8").replace(/\/\*[\s\S]*?\*\/|\/\/[^\n]*/g, "")),
    );
    expect(asks).toEqual([]);
  });
});

describe("the map", () => {
  const map = readFileSync(join(root, "DEVELOPERS.md"), "utf8");

  test("names only what is there", () => {
    const named = [...map.matchAll(/`([\w.-]+(?:\/[\w.-]+)*\/?)`/g)]
      .map((m) => m[1]!)
      .filter((name) => name.includes("/"));
    expect(named.length).toBeGreaterThan(10);
    expect(named.filter((name) => !existsSync(join(root, name)))).toEqual([]);
  });

  test("is short enough to be read", () => {
    expect(map.split("\n").length).toBeLessThan(150);
  });
});

test("the top of the repository holds what belongs there", () => {
  const allowed = new Set(
    `.ci .gitignore .gitattributes CHANGELOG.md DEVELOPERS.md LICENSE README.md biome.json client language package-lock.json
    package.json samples server shared tests tsconfig.json vitest.config.ts`.split(/\s+/),
  );
  const tracked = execFileSync("git", ["ls-files", "--cached", "--others", "--exclude-standard"], {
    cwd: root,
    encoding: "utf8",
  });
  const top = new Set(
    tracked
      .trim()
      .split("\n")
      .map((path) => path.split("/")[0]!),
  );
  expect([...top].filter((name) => !allowed.has(name))).toEqual([]);
});

test("files are named for what they hold", () => {
  const vague = sources.filter((file) => /(?:^|\/)(?:utils?|helpers?|common|managers?|misc)\.ts$/.test(file));
  expect(vague).toEqual([]);
});

test("the sources are in the house's layout and without lint", { timeout: 120_000 }, () => {
  const biome = join(root, "node_modules/.bin/biome");
  expect(statSync(biome).isFile()).toBe(true);
  const run = spawnSync(biome, ["check", "--colors=off", "--error-on-warnings", "."], { cwd: root, encoding: "utf8" });
  expect(`${run.status}\n${run.status === 0 ? "" : run.stdout + run.stderr}`).toBe("0\n");
});
