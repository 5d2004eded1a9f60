import { writtenCheck } from "../check.ts";
import { example } from "../example.ts";
import { routeMeant } from "./route-words.ts";
import { isForInjection, isSameWay, routeOfForm, wayIn, wayOfProduct } from "./ways-in.ts";

export const formContradictsRoute = writtenCheck({
  name: "form-contradicts-route",
  family: "limits",
  severity: "error",
  title: "A dosage form that is not for the ordered route",
  why: "The form stands on the label beside the name; eye drops on a syringe for the vein, or an infusion for the eye, send it the wrong way.",
  source: "common practice",
  bad: example(["form           solution-for-infusion", "form           oral-solution"]),
  good: example(["form           solution-for-infusion", "form           solution-for-injection"]),
  *find({ recipe }) {
    const route = recipe.order?.one("route")?.slots.route.name;
    const way = route === undefined ? undefined : wayIn(route);
    if (way === undefined) return;
    for (const { facts } of recipe.preparations) {
      const form = facts.one("form")?.slots.form;
      if (!form) continue;
      const meant = isForInjection(form.name) ? "injected" : wayOfProduct(form.name)?.way;
      const named = routeOfForm(form.name);
      const isOther = way === "injected" && named !== undefined && named !== routeMeant(route!);
      if (isOther || (meant !== undefined && !isSameWay(meant, way)))
        yield { at: form, form: form.name, route: route! };
    }
  },
  say: ({ form, route }) => ({
    text: `The preparation is ${form.replaceAll("-", " ")}, and the order is ${route}. Correct the form or the route.`,
  }),
});
