/**
 * Keeps what was read from the texts asked last: the lines of a label are the same in recipe after recipe, and a range asks for the
 * same title at each of its pieces. `read` looks at nothing but the text, and nobody alters what it gives.
 */
export function remembered<T extends object>(read: (text: string) => T): (text: string) => T {
  const known = new Map<string, T>();
  return (text) => {
    const before = known.get(text);
    if (before) return before;
    const found = read(text);
    if (known.size >= mostTexts) known.clear();
    known.set(text, found);
    return found;
  };
}

const mostTexts = 500;
