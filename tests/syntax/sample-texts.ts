/** The texts of the sample libraries, for tests that mutate or re-lay them. */
import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";

const folder = join(import.meta.dirname, "../../samples");

export interface Sample {
  /** From the folder of samples, with slashes. */
  path: string;
  text: string;
}

function under(path: string): Sample[] {
  return readdirSync(join(folder, path), { withFileTypes: true }).flatMap((entry) => {
    const inner = path === "" ? entry.name : `${path}/${entry.name}`;
    if (entry.isDirectory()) return under(inner);
    return entry.name.endsWith(".misce") ? [{ path: inner, text: readFileSync(join(folder, inner), "utf8") }] : [];
  });
}

/** Sound and faulty ones. */
export const samples: readonly Sample[] = under("");
