import { declarationCheck } from "../check.ts";
import { example } from "../example.ts";
import { routeMeant } from "../limits/route-words.ts";

/** How fast it is given is decided at the bedside: at once, by effect, or by whoever takes a part. */
const openEnded: ReadonlySet<string> = new Set(["bolus", "titrated", "part-of-container"]);

export const givingNotSaid = declarationCheck({
  name: "giving-not-said",
  family: "record",
  severity: "warning",
  title: "An intravenous order that does not say by what access or how fast it is given",
  why: "Limits of strength depend on the vein, and limits of rate on the time: unsaid, neither is watched.",
  source: "common practice",
  rows: ["record-elements napra-label-06"],
  bad: example(["    access          peripheral\n", ""]),
  good: example(),
  *find({ declaration }) {
    const order = declaration.kind === "recipe" ? declaration.order : undefined;
    if (!order || routeMeant(order.one("route")?.slots.route.name ?? "") !== "intravenous") return;
    const use = order.one("use")?.slots.use.choice;
    const lacking: string[] = [];
    if (!order.one("access") && !order.isUnread("access")) lacking.push("`access` (peripheral or central)");
    const timed =
      order.all("infuse-over").length + order.all("infuse-at").length > 0 ||
      ["infuse-over", "infuse-at", "use"].some((word) => order.isUnread(word));
    const perTime = order.all("dose").some((d) => d.slots.time) || order.all("additive").some((d) => d.slots.time);
    if (!timed && !perTime && !openEnded.has(use ?? "")) {
      lacking.push("`infuse-over` (or `infuse-at`, or `use` bolus, titrated or part-of-container)");
    }
    if (lacking.length > 0) yield { at: order.one("route")!, lacking };
  },
  say: ({ lacking }) => ({ text: `This intravenous order does not say ${lacking.join(" and ")}. Add it.` }),
});
