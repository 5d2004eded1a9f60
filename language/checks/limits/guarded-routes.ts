/** Routes into the space around brain and spinal cord, and into the eye: what is harmless in a vein can maim or kill there. */
export const guardedRoutes: ReadonlySet<string> = new Set([
  "intrathecal",
  "epidural",
  "intraventricular",
  "intracameral",
  "intravitreal",
]);
