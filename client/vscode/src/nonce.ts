/** A word that nobody can guess, from the platform's own source of randomness: Node and browsers have it alike. */
export function unguessable(): string {
  return [...crypto.getRandomValues(new Uint8Array(16))].map((byte) => byte.toString(16).padStart(2, "0")).join("");
}
