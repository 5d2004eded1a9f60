/** A range in form only, which holds one patient, is not spoken of as "every order". */
import { expect, it } from "vitest";
import { libraryOf, textsOf } from "../sheet/sample-sheets.ts";

const texts = textsOf("library");
const file = Object.keys(texts).find((f) => f.endsWith("/vancomycin-loading.misce"))!;

function messages(weight: string): string[] {
  const text = texts[file]!.replace("40 kg to 120 kg in steps of 0.1 kg", weight).replace(
    /(method +)withdraw-first/,
    "$1add-to-bag",
  );
  const library = libraryOf({ ...texts, [file]: text });
  return library.findings(file).flatMap((f) => (f.name === "method-not-followed" ? [f.message] : []));
}

it("names the one patient of 60 kg to 60.4 kg in steps of 0.5 kg", () => {
  expect(messages("60 kg to 60.4 kg in steps of 0.5 kg")).toEqual([
    expect.stringMatching(/So for weight 60 kg, the only order\.$/),
  ]);
});

it("says of two patients that it is so for every order", () => {
  expect(messages("60 kg to 60.5 kg in steps of 0.5 kg")).toEqual([
    expect.stringMatching(/So for every order; shown for weight 60 kg\.$/),
  ]);
});
