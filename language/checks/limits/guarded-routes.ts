import { routeMeant } from "./route-words.ts";

/** Routes into the space around brain and spinal cord, and into the eye: what is harmless in a vein can maim or kill there. */
const guardedRoutes: ReadonlySet<string> = new Set([
  "intrathecal",
  "epidural",
  "intraventricular",
  "intracameral",
  "intravitreal",
]);

/** The space by its usual name, however it is written; other routes as they are. */
export function spaceOf(route: string): string {
  const meant = routeMeant(route);
  return guardedRoutes.has(meant) ? meant : route;
}

export function isGuarded(route: string): boolean {
  return guardedRoutes.has(spaceOf(route));
}
