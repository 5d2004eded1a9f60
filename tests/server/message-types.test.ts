/** The judge of messages judged: what is unlike its type is told, and what is like it is not. */
import { expect, test } from "vitest";
import { type Message, unlikeTheTypes } from "./message-types.ts";

const range = { start: { line: 0, character: 1 }, end: { line: 0, character: 2 } };
const published = (diagnostic: object): Message => ({
  method: "textDocument/publishDiagnostics",
  part: "note",
  value: { uri: "file:///a.misce", diagnostics: [{ range, message: "m", ...diagnostic }] },
});

test("members that are missing, too many or of another kind", () => {
  expect(unlikeTheTypes([published({ severity: 1, code: "c", source: "misce" })])).toEqual([]);
  const wrong = [
    published({ severity: 5 }),
    published({ colour: "red" }),
    { method: "textDocument/hover", part: "result", value: { range } },
    { method: "client/registerCapability", part: "params", value: { registrations: [{ id: 3, method: "m" }] } },
  ] satisfies Message[];
  expect(unlikeTheTypes(wrong)).toHaveLength(wrong.length);
});
