/** Routes into the space around brain and spinal cord, and into the eye: what is harmless in a vein can maim or kill there. */
const guardedRoutes: ReadonlySet<string> = new Set([
  "intrathecal",
  "epidural",
  "intraventricular",
  "intracameral",
  "intravitreal",
]);

/** Other words for the same space, as orders write them. */
const otherWords: ReadonlyMap<string, string> = new Map([
  ["it", "intrathecal"],
  ["spinal", "intrathecal"],
  ["intraspinal", "intrathecal"],
  ["subarachnoid", "intrathecal"],
  ["lumbar", "intrathecal"],
  ["extradural", "epidural"],
  ["peridural", "epidural"],
  ["caudal", "epidural"],
  ["icv", "intraventricular"],
  ["intracerebroventricular", "intraventricular"],
  ["intravitreous", "intravitreal"],
]);

/** The space by its usual name, however it is written; other routes as they are. */
export function spaceOf(route: string): string {
  const plain = route.toLowerCase().replaceAll("-", "").replace(/ly$/, "");
  const meant = otherWords.get(plain) ?? plain;
  return guardedRoutes.has(meant) ? meant : route;
}

export function isGuarded(route: string): boolean {
  return guardedRoutes.has(spaceOf(route));
}

/** `spinal` is where `never intrathecal` speaks of. */
export function isSameRoute(one: string, other: string): boolean {
  return spaceOf(one) === spaceOf(other);
}
