/** Slips that are no wrong figure: a line or a block left out, a name or a verb misspelt, another size of a product. */
import type { SampleRecipe } from "./planted-slips.ts";

export interface LineSlip {
  kind: string;
  /** The line that it was, for messages. */
  what: string;
  text: string;
}

const orderLines =
  "drug additive dose diluent diluent-volume final-volume method route infuse-over infuse-at use makes weight".split(
    " ",
  );

const blocks = ["order", "materials"];

export function lineSlipsIn({ text }: SampleRecipe): LineSlip[] {
  const lines = text.split("\n");
  const found: LineSlip[] = [];
  const put = (kind: string, at: number, now: string | undefined) => {
    const changed = now === undefined ? lines.toSpliced(at, 1) : lines.with(at, now);
    found.push({ kind, what: lines[at]!.trim(), text: changed.join("\n") });
  };
  let block = "";
  for (const [at, line] of lines.entries()) {
    block = /^ {2}([\w-]+).*\{$/.exec(line)?.[1] ?? (/^ {2}\}/.test(line) ? "" : block);
    const [word = "", name = ""] = line.trim().split(/\s+/);
    if (blocks.includes(block) && line.endsWith("{")) {
      const end = lines.indexOf("  }", at);
      found.push({ kind: `no ${block}`, what: block, text: lines.toSpliced(at, end - at + 1).join("\n") });
    } else if (block === "order" && orderLines.includes(word)) {
      put(`no ${word}`, at, undefined);
      if (["drug", "additive", "diluent"].includes(word))
        put(`${word} misspelt`, at, line.replace(name, misspelt(name)));
    } else if (block === "materials" && /^ {4}\S/.test(line)) {
      const item = line
        .replace(/ +when.*/, "")
        .trim()
        .split(/\s+/)
        .at(-1)!;
      put("no material", at, undefined);
      put("product misspelt", at, line.replace(item, misspelt(item)));
      put("material misspelt", at, line.replace(word, `${word}x`));
    } else if (block === "steps" && /^ {4}\S/.test(line)) {
      put("no step", at, undefined);
      put("verb misspelt", at, line.replace(word, misspelt(word)));
      const thing =
        /(?<=(?:from|into|of|using|on|to|with|open|tap|disinfect|mix|inject|attach|replace|remove) )(?!each|light|all)[a-z][\w-]*(?=[ ,]|$)/;
      if (thing.test(line)) put("thing misspelt", at, line.replace(thing, "$&x"));
    }
    for (const [one, other] of sizes) {
      if (block === "materials" && line.includes(one)) put("another size", at, line.replace(one, other));
    }
  }
  return found.filter((slip) => slip.text !== text);
}

function misspelt(name: string): string {
  return name.slice(0, 2) + name.slice(3);
}

const sizes = [
  ["vancomycin-vial-500", "vancomycin-vial-1000"],
  ["vancomycin-vial-1000", "vancomycin-vial-500"],
  ["ceftriaxone-vial-500", "ceftriaxone-vial-1000"],
  ["ceftriaxone-vial-1000", "ceftriaxone-vial-500"],
  ["saline-bag-500", "saline-bag-100"],
  ["saline-bag-250", "saline-bag-50"],
  ["saline-bag-100", "saline-bag-500"],
  ["syringe-50mL", "syringe-5mL"],
  ["syringe-10mL", "syringe-1mL"],
] as const;
