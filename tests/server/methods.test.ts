/** The table of methods against the protocol's own list: the types that vscode-languageserver-protocol exports. */

import { expect, test } from "vitest";
import * as protocol from "vscode-languageserver-protocol";
import { methods } from "../../server/methods.ts";

/** `XRequest.method` and `XNotification.method` of every exported type. */
function protocolMethods(): string[] {
  const found = new Set<string>();
  for (const [name, value] of Object.entries(protocol as unknown as Record<string, { method?: unknown } | undefined>)) {
    if (/(Request|Notification)$/.test(name) && typeof value?.method === "string") found.add(value.method);
  }
  return [...found].sort();
}

test("every method of the protocol is in the table, answered or with a reason", () => {
  const all = protocolMethods();
  expect(all.length).toBeGreaterThan(80);
  const missing = all.filter((method) => !Object.hasOwn(methods, method));
  expect(missing).toEqual([]);
});

test("the table names no method that the protocol does not have", () => {
  const all = new Set([...protocolMethods(), "$/progress", "$/cancelRequest", "$/setTrace", "$/logTrace"]);
  // Internal to the package's types: sent as methods of their own.
  const more = new Set([
    "textDocument/semanticTokens/full",
    "textDocument/semanticTokens/full/delta",
    "textDocument/semanticTokens/range",
  ]);
  expect(Object.keys(methods).filter((m) => !all.has(m) && !more.has(m))).toEqual([]);
});

test("a method that is not offered says why in a sentence", () => {
  for (const [method, offer] of Object.entries(methods)) {
    if ("absent" in offer) expect(offer.absent, method).toMatch(/^[A-Z].{15,}\.$/);
  }
});
