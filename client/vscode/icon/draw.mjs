/**
 * Makes misce.png (128 by 128) from misce.svg with a real browser's drawing: `node client/vscode/icon/draw.mjs`. The picture is kept in
 * the repository, since a build must not need a browser; run this after a change of the drawing.
 */
import { readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { chromium } from "playwright-core";

const here = (name) => fileURLToPath(new URL(name, import.meta.url));
const browser = await chromium.launch({
  executablePath: process.env.CHROMIUM ?? "/usr/bin/chromium",
  args: ["--no-sandbox"],
});
const page = await browser.newPage({ viewport: { width: 128, height: 128 } });
await page.setContent(`<style>body{margin:0}svg{display:block}</style>${readFileSync(here("misce.svg"), "utf8")}`);
await page.screenshot({ path: here("misce.png"), omitBackground: true });
await browser.close();
