/** Snippets as text, and where one may be offered. */

export interface Snippet {
  prefix: string;
  description: string;
  body: string[];
}

/** Whether nothing but the beginning of a declaration's word stands between the left margin and the cursor, and nothing behind it. */
export function beginsDeclaration(line: string, cursor: number): boolean {
  return /^[A-Za-z]*(: ?[a-z ]*)?$/.test(line.slice(0, cursor)) && line.slice(cursor).trim() === "";
}

/** As it reads when every place keeps its sample words. */
export function filledIn(body: string): string {
  return body.replace(/\$\{\d+:([^}]*)\}/g, "$1").replace(/\n?\$0$/, "");
}
