/** A memory of answers: bounded, and of use to whoever asks for more texts in turn than it holds. */
import { expect, it } from "vitest";
import { remembered } from "../../language/quantities/remembered.ts";

function counted(most: number) {
  const asked: string[] = [];
  const size = remembered((text: string) => {
    asked.push(text);
    return { size: text.length };
  }, most);
  return { size, asked };
}

it("asks once, and gives the same answer again", () => {
  const { size, asked } = counted(10);
  expect(size("ab")).toBe(size("ab"));
  expect(asked).toEqual(["ab"]);
});

it("finds again most of what is asked in turn, also where that is a little more than it takes before it starts anew", () => {
  const { size, asked } = counted(10);
  const texts = Array.from({ length: 12 }, (_, i) => "x".repeat(i));
  for (let round = 0; round < 5; round++) for (const text of texts) expect(size(text).size).toBe(text.length);
  // One that started anew and kept nothing would be asked for almost all of the 60.
  expect(asked.length).toBeLessThan(20);
});

it("forgets what has not been asked for since it was filled twice", () => {
  const { size, asked } = counted(10);
  size("first");
  for (let i = 0; i < 40; i++) size(`text ${i}`);
  size("first");
  expect(asked.filter((text) => text === "first").length).toBe(2);
});
