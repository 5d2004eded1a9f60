/** `site`: what this hospital decides. Everything that national guidance differs on is here, with a default in site-policy.ts. */
import { fact } from "../facts.ts";

export const siteFacts = {
  name: fact("<text:text>", "Name of the hospital or unit, printed on sheets and labels.", { required: true }),
  cabinet: fact(
    "<kind:horizontal-laminar-flow|vertical-laminar-flow|containment-cabinet|isolator|none>",
    "The cabinet in which preparations of this library are made.",
    { required: true },
  ),
  "beyond-use": fact(
    "<edition:name> [category (<category?:number> | <level?:name>)]",
    "The beyond-use policy by the edition's name, and the category of what is made here.",
  ),
  tolerance: fact(
    "<of:dose|concentration|volume|worst-case|rounding> <share:measure>",
    "How far a result may lie from the order, and how far the rounding that the order states may move a dose.",
    {
      many: true,
    },
  ),
  "expiry-ahead": fact("<time:measure>", "How long before its expiry a lot is announced."),
  "time-zone": fact("<zone:text>", "Local calendar for dates, an IANA zone name."),
  "month-only": fact("<reading:last-day|first-day>", "Which day an expiry with month and year alone stands for."),
  approvals: fact("<role:name>", "A role whose approval each recipe needs.", { many: true }),
  role: fact("<name:name>", "A role that may check, approve or sign a deviation.", { many: true }),
  microgram: fact("<style:mcg|micrograms>", "House spelling of micrograms."),
  activity: fact("<style:units|international units>", "House spelling of units of activity."),
  thousands: fact("<style:comma|thin-space|words|none>", "How 1,000 and more are written."),
  "small-decimals": fact("<style:allowed|smaller-unit>", "Whether a figure below one is written in the smaller unit."),
  decimals: fact("<style:any|one-place>", "Whether figures keep one decimal place where possible."),
  severity: fact("<check:name> <level:error|warning|note|off>", "Changes how grave a finding is, with a reason.", {
    many: true,
  }),
  "never-silenced": fact("<check:name>", "A finding that no deviation may silence.", { many: true }),
  "additive-share": fact(
    "up to <share:measure>",
    "Largest additive volume, as a share of the bag, that may be added without withdrawing first.",
  ),
  "smallest-share": fact("<share:measure>", "Smallest part of a syringe's capacity worth measuring."),
  "largest-share": fact("<share:measure>", "Largest part of a syringe's capacity to fill."),
  "needle-punctures": fact("up to <count:number>", "Punctures after which a needle is changed."),
  "peripheral-osmolarity": fact("up to <limit:measure>", "Osmolarity limit for a peripheral vein."),
  "air-for-hazardous": fact(
    "up to <share:measure>",
    "Largest share of the drawn volume that may go into a hazardous vial as air.",
  ),
  "equal-air-above": fact("<volume:measure>", "Draws above this volume from a sealed vial need equal pressure."),
  "small-dose": fact("<volume:measure>", "Volumes up to this one must say whether dead space is counted."),
  "pump-step": fact("<step:measure>", "Smallest step in which a pump of this site is set."),
  "use-within-counts": fact("<end:start|end>", "Whether a beyond-use limit speaks of the start or the end of giving."),
  note: fact("<text:text>", "Printed with every sheet of the library.", { many: true }),
} as const;
