/**
 * Pure questions about short texts are asked again and again over a library (`10 mL` stands in thousands of lines), so each answer
 * is kept, one memory for each house style. Answers are shared and must not be changed.
 */
import type { HouseStyle } from "./house.ts";

/** Enough for a large library; beyond it the memory starts anew, so that typing never fills it. */
const mostAnswers = 5000;
/**
 * Of whole sentences, which hardly recur from one recipe to the next: as many as several checks ask about while one recipe is judged, and
 * hundreds of recipes after a change that they rest on.
 */
export const mostSentences = 1000;
/** Longer texts are no measures; keeping them would cost more than judging them. */
const longestKey = 80;

export class Remembered<T> {
  private readonly houses = new WeakMap<HouseStyle, Map<string, T>>();

  get(house: HouseStyle, key: string): T | undefined {
    return this.houses.get(house)?.get(key);
  }

  /** Keeps the answer and gives it back. */
  put(house: HouseStyle, key: string, answer: T): T {
    if (key.length > longestKey) return answer;
    let known = this.houses.get(house);
    if (!known) {
      known = new Map();
      this.houses.set(house, known);
    }
    if (known.size >= mostAnswers) known.clear();
    known.set(key, answer);
    return answer;
  }
}

/**
 * The same for a question that no house style alters. What is asked again outlives the filling of the memory: hundreds of recipes that are
 * judged in turn, again and again, ask for a few more texts than it holds, and would find hardly one of them in one that starts anew.
 * @param most answers given since the last start; as many older ones stay until they are asked for or the next start
 */
export function remembered<T extends object | string>(
  answer: (text: string) => T,
  most = mostAnswers,
): (text: string) => T {
  let known = new Map<string, T>();
  let older: ReadonlyMap<string, T> = known;
  return (text) => {
    const before = known.get(text);
    if (before !== undefined) return before;
    const found = older.get(text) ?? answer(text);
    if (known.size >= most) {
      older = known;
      known = new Map();
    }
    known.set(text, found);
    return found;
  };
}
