/**
 * The preview's page: an empty shell. Nothing may be loaded but the extension's own style sheet and the one script that carries
 * the nonce; all content arrives as data and is put in place as text.
 */
import { unguessable } from "./nonce.ts";

interface Webview {
  cspSource: string;
  asWebviewUri(uri: never): { toString(): string };
}

export function pageHtml(webview: Webview, dist: { with(change: { path: string }): unknown; path: string }): string {
  const nonce = unguessable();
  const at = (name: string) => webview.asWebviewUri(dist.with({ path: `${dist.path}/${name}` }) as never).toString();
  const policy = [
    "default-src 'none'",
    `style-src ${webview.cspSource}`,
    `script-src 'nonce-${nonce}'`,
    "base-uri 'none'",
    "form-action 'none'",
  ];
  return `<!DOCTYPE html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="${policy.join("; ")}">
<meta name="viewport" content="width=device-width, initial-scale=1">
<link rel="stylesheet" href="${at("page.css")}">
<title>Preview</title>
</head>
<body>
<p id="announced" class="announced" role="status"></p>
<main id="recipe"><p class="waiting">Waiting for the checker.</p></main>
<script nonce="${nonce}" src="${at("page.js")}"></script>
</body>
</html>`;
}
