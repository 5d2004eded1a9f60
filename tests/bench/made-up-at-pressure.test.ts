/** `make up` says at which pressure it draws, as every step that draws from a sealed vial does. Common practice. */
import { expect, test } from "vitest";
import { powderExample } from "../../language/checks/example.ts";
import { findingsOf } from "../checks/findings-of.ts";

/** The bag made up from the sealed vial of water by 10 mL, with these words behind the step; what is told of air. */
function toldOfAir(words: string): string[] {
  const text = powderExample([
    "    inject measure into sack\n",
    `    inject measure into sack\n    make up sack to 120 mL with wfi using measure${words}\n`,
  ]);
  const found = findingsOf(text);
  expect(found.map((f) => f.name)).not.toContain("step-not-understood");
  return found.flatMap(({ name, message }) => (/air|pressure/.test(name) ? [message] : []));
}

test("air that nothing lets in is told, with words that the step can take", () => {
  expect(toldOfAir("")).toHaveLength(1);
  expect(toldOfAir("")[0]).toContain("Add `at equal pressure`");
});

test.each([" at equal pressure", " at negative pressure"])("`%s` is read and says it", (words) => {
  expect(toldOfAir(words)).toEqual([]);
});
