/** A part that cannot do what a step asks of it. Which part does what: common practice. */
import { describe, expect, test } from "vitest";
import { example } from "../../language/checks/example.ts";
import { findingsOf } from "./findings-of.ts";

const inject = "    inject syringe into bag\n";
const materials = "    filter       filter-needle-5um\n";
const cap = "device syringe-cap {\n  kind  cap\n}\n";
const told = (text: string) => findingsOf(text + cap).map(({ name, message }) => `${name}: ${message}`);

describe.each(["syringe-cap", "dispensing-spike", "transfer-tubing"])(
  "an ampoule is not drawn from through a %s",
  (device) => {
    test("told as a thing that does not serve", () => {
      expect(told(example([materials, `    filter       ${device}\n`]))).toContainEqual(
        expect.stringContaining("this step needs a needle, a filter needle or a filter straw"),
      );
    });
  },
);

test.each(["syringe-cap", "filter-straw-5um"])("a bag's port is not entered with a %s", (device) => {
  const text = example(["    needle       needle-18-gauge\n", `    needle       ${device}\n`]);
  expect(told(text)).toContainEqual(expect.stringContaining("this step needs a needle, a spike or a connector"));
});

test.each([
  ["syringe-cap", "is a cap"],
  ["needle-21-gauge", "is a needle"],
  ["transfer-tubing", "is tubing"],
])("liquid is not filtered by a %s", (device, said) => {
  const text = example(
    [materials, `${materials}    sieve        ${device}\n`],
    ["    replace filter on syringe with needle\n", "    remove filter from syringe\n"],
    [inject, "    pass syringe through sieve into bag\n"],
  );
  expect(told(text)).toContainEqual(expect.stringContaining(`sieve ${said}; this step needs a filter`));
});

test("a syringe filter filters, and with it nothing is told of the part", () => {
  const text = example(
    [materials, `${materials}    sieve        syringe-filter-0.2um\n`],
    ["    replace filter on syringe with needle\n", "    remove filter from syringe\n"],
    [inject, "    pass syringe through sieve into bag\n"],
  );
  expect(told(text).join()).not.toContain("wrong-kind-of-thing");
});

test.each([
  ["attach spare to mag", "mag is an ampoule; this step needs a syringe for spare"],
  ["connect syringe to mag", "mag is an ampoule; this step needs a syringe, a bag or a vial"],
])("%s", (step, expected) => {
  expect(
    told(example([materials, `${materials}    spare        needle-21-gauge\n`], [inject, `${inject}    ${step}\n`])),
  ).toContainEqual(expect.stringContaining(expected));
});

test("liquid is not led over by a cap", () => {
  const text = example(
    [materials, `${materials}    second       saline-bag-100\n    line         syringe-cap\n`],
    [inject, `${inject}    transfer 10 mL from bag to second using line\n`],
  );
  expect(told(text)).toContainEqual(
    expect.stringContaining("line is a cap; this step needs tubing or a transfer device"),
  );
});
