/** The extension's package.json against its sources: nothing is offered that is not there, nothing is there that is not offered. */
import { existsSync, readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { tokenClasses } from "../../language/answers/token-classes.ts";

const folder = join(import.meta.dirname, "../../client/vscode");
const text = (path: string) => readFileSync(join(folder, path), "utf8");
const manifest = JSON.parse(text("package.json"));
const { contributes } = manifest;
const sources = readdirSync(join(folder, "src")).map((name) => text(`src/${name}`));
const source = sources.join("\n");

interface Setting {
  type: string;
  default: unknown;
  description?: string;
  markdownDescription?: string;
  enum?: string[];
  enumDescriptions?: string[];
  pattern?: string;
}

const settings: [string, Setting][] = Object.entries(contributes.configuration.properties);
const commands: string[] = contributes.commands.map((c: { command: string }) => c.command);

describe("commands", () => {
  it.each(contributes.commands as { command: string; title: string; category: string }[])(
    "$command has a title, a category and somebody who carries it out",
    ({ command, title, category }) => {
      expect(title).toMatch(/^[A-Z].{5,}[^.]$/);
      expect(category).toBe("Misce");
      expect(source).toContain(`"${command}"`);
    },
  );

  it("registered ones are all offered", () => {
    const named = [...source.matchAll(/"(misce\.[a-zA-Z]+)":? ?(?:,|:| \()/g)].map((m) => m[1]!);
    expect(named.length).toBeGreaterThan(5);
    for (const name of named.filter((n) => !["misce.preview", "misce.status", "misce.showUses"].includes(n))) {
      expect([...commands, ...settings.map(([key]) => key)]).toContain(name);
    }
  });

  it("menus and keys name commands that there are", () => {
    const placed = [...Object.values(contributes.menus).flat(), ...contributes.keybindings] as { command: string }[];
    for (const { command } of placed) expect(commands).toContain(command);
  });

  it("each check command of the desktop is also known in a browser", () => {
    expect(text("src/web.ts")).toContain('"misce.checkLibrary"');
    expect(text("src/check-task.ts")).toContain('"misce.checkLibrary"');
  });
});

describe("settings", () => {
  it.each(settings)("%s says what it does and has a default of its type", (key, setting) => {
    const told = setting.description ?? setting.markdownDescription ?? "";
    expect(told).toMatch(/^[A-Z].{30,}\.$/);
    expect(Array.isArray(setting.default) ? "array" : typeof setting.default).toBe(setting.type);
    if (setting.enum) {
      expect(setting.enumDescriptions).toHaveLength(setting.enum.length);
      expect(setting.enum).toContain(setting.default);
    }
    if (setting.pattern) expect(String(setting.default)).toMatch(new RegExp(setting.pattern));
    expect(text("README.md")).toContain(`\`${key}\``);
  });

  it("each one is read by the client, the server, or the language client", () => {
    const server = readFileSync(join(folder, "../../server/settings.ts"), "utf8");
    for (const [key] of settings) {
      const name = key.slice("misce.".length);
      const isRead = source.includes(`"${name}"`) || new RegExp(`\\b${name}\\b`).test(server);
      expect(isRead || key === "misce.trace.server", key).toBe(true);
    }
  });
});

describe("files", () => {
  it("all that the manifest names are there", () => {
    const named = [
      manifest.icon,
      ...contributes.languages.flatMap((l: { configuration: string; icon: object }) => [
        l.configuration,
        ...Object.values(l.icon),
      ]),
      ...contributes.grammars.map((g: { path: string }) => g.path),
      "snippets/misce.json",
      ...contributes.walkthroughs.flatMap((w: { steps: { media: { markdown: string } }[] }) =>
        w.steps.map((s) => s.media.markdown),
      ),
    ];
    for (const path of named) expect(existsSync(join(folder, path)), path).toBe(true);
  });

  it("the icon is a PNG of 128 by 128", () => {
    const png = readFileSync(join(folder, manifest.icon));
    // PNG (ISO/IEC 15948): signature of 8 bytes, then the IHDR chunk with width and height from byte 16.
    expect(png.subarray(1, 4).toString("latin1")).toBe("PNG");
    expect([png.readUInt32BE(16), png.readUInt32BE(20)]).toEqual([128, 128]);
  });

  it("the version is the product's own", () => {
    const product = JSON.parse(readFileSync(join(folder, "../../package.json"), "utf8"));
    expect(manifest.version).toBe(product.version);
  });

  it("no newer editor is asked for than the language client needs", () => {
    const client = JSON.parse(
      readFileSync(join(folder, "../../node_modules/vscode-languageclient/package.json"), "utf8"),
    );
    expect(manifest.engines.vscode).toBe(client.engines.vscode);
  });
});

describe("walkthrough", () => {
  it("each step is done by a command that there is", () => {
    for (const { steps } of contributes.walkthroughs) {
      for (const { description, completionEvents } of steps) {
        const linked = [...description.matchAll(/\(command:([\w.]+)\)/g)].map((m: string[]) => m[1]);
        const events = completionEvents.map((e: string) => e.replace("onCommand:", ""));
        for (const command of [...linked, ...events].filter((c) => c.startsWith("misce."))) {
          expect(commands).toContain(command);
        }
      }
    }
  });
});

it("colours by meaning are those of the first paint, for every class that the server tells", () => {
  const [{ scopes }] = contributes.semanticTokenScopes;
  expect(Object.keys(scopes).sort()).toEqual([...tokenClasses].sort());
});

it("a derived figure in the text is never cut short: half a unit is another unit", () => {
  expect(contributes.configurationDefaults["[misce]"]["editor.inlayHints.maximumLength"]).toBe(0);
});

it("nothing goes to the network", () => {
  expect(source).not.toMatch(/fetch\(|XMLHttpRequest|node:https?|telemetry/i);
});
