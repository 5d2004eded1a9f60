/** Bytes to text: nothing is replaced, and what the fast way cannot vouch for is read strictly. */
import { expect, test } from "vitest";
import { decodeBytes, isSurely, largestFile } from "../../language/syntax/decode.ts";

const bytes = (text: string) => new TextEncoder().encode(text);

test("a text comes back as it is, byte order mark included", () => {
  for (const text of ["", "recipe a {\n}\n", "\uFEFFrecipe a {\r\n}", "µé\u{1F489}", "a replacement sign: \uFFFD"])
    expect(decodeBytes(bytes(text))).toEqual({ text });
});

test("what is no UTF-8 is told with its line", () => {
  const faulty = new Uint8Array([...bytes("one\ntwo "), 0xb5, 0x67]);
  expect(decodeBytes(faulty)).toMatchObject({ name: "file-not-utf-8", reason: expect.stringMatching(/^Line 2 /) });
  expect(decodeBytes(new Uint8Array([0xff, 0xfe, 0x61, 0]))).toMatchObject({ reason: expect.stringMatching(/UTF-16/) });
  expect(decodeBytes(bytes("ab\0c"))).toMatchObject({ reason: expect.stringMatching(/^Byte 3 /) });
  expect(decodeBytes(new Uint8Array(largestFile + 1))).toMatchObject({ name: "file-too-large" });
});

test("a text decoded with replacement is trusted only where nothing can have been replaced", () => {
  expect(isSurely("recipe µ {")).toBe(true);
  for (const text of ["a\uFFFDb", "a\0b", "x".repeat(largestFile / 3 + 1)]) expect(isSurely(text)).toBe(false);
});
