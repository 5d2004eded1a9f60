import type { Recipe } from "../../model/declaration.ts";
import type { Lookup } from "../../model/lookup.ts";
import { Exact } from "../../quantities/exact.ts";
import { inBase, type Quantity, showQuantity } from "../../quantities/quantity.ts";
import { recipeCheck } from "../check.ts";
import { example } from "../example.ts";
import { measuresOf } from "../stated-measures.ts";
import { isOrderedNotKnown } from "../unread-facts.ts";
import { writtenAsStrength } from "../written/amounts-in-volumes.ts";
import { ofAnother } from "../written/bare-figures.ts";
import { containedIn } from "../written/contained.ts";
import { doseForPatientContradicted, isForEach } from "../written/doses-for-patient.ts";
import { drugPercents } from "../written/drug-percents.ts";
import { equatedUnitsSpelt } from "../written/equated-units.ts";
import { figuresIn } from "../written/figures-in-text.ts";
import { asPrinted, inFigures } from "../written/figures-spelt.ts";
import { fluidNameContradicted } from "../written/fluids-named.ts";
import { formForPatient, isFormSaid, isForPatient } from "../written/forms-for-patients.ts";
import { batchContradicted } from "../written/label-batches.ts";
import { dilutionContradicted, preservativeContradicted } from "../written/label-claims.ts";
import { dropsContradicted } from "../written/label-drops.ts";
import { equationContradicted, figuresOfEquations } from "../written/label-equations.ts";
import { isAmount, isNear, titleStrengthContradicted } from "../written/label-figures.ts";
import { fluidPercentContradicted } from "../written/label-fluids.ts";
import { filterContradicted } from "../written/label-handling.ts";
import { keepingContradicted } from "../written/label-keeping.ts";
import { otherDose } from "../written/label-patients.ts";
import { patientContradicted } from "../written/label-populations.ts";
import { figuresOfConversions, rateContradicted } from "../written/label-rates.ts";
import { routeContradicted } from "../written/label-routes.ts";
import { saltContradicted } from "../written/label-salts.ts";
import { titleVolumeContradicted } from "../written/label-volumes.ts";
import { wayOfGivingContradicted } from "../written/label-ways.ts";
import { nominalVolumes } from "../written/nominal-volumes.ts";
import { portionsIn } from "../written/portions-in-text.ts";
import { isHeldByProduct, isSame, productStrengths } from "../written/product-figures.ts";
import { ratiosIn } from "../written/ratios-in-text.ts";
import { namesInFull } from "../written/short-names.ts";
import { sourceContradicted } from "../written/source-strengths.ts";
import { portionContradicted, writtenInPortions } from "../written/stock-portions.ts";
import { strangeName } from "../written/strange-names.ts";
import { isOfStray, straysNamed } from "../written/strays-named.ts";
import { substanceContradicted } from "../written/substances-named.ts";
import { tailContradicted } from "../written/tail-names.ts";
import { matchesDose } from "../written/title-amounts.ts";
import { isOfIntermediate, isPartOfSum, isTotal, isWholeVolume, timesSaid } from "../written/title-wholes.ts";
import { moietyContradicted, ofWhole, undeclaredForm } from "../written/undeclared-forms.ts";
import { accessContradicted, namesItsDrug, ownWords, wordsOf } from "../written/words-against-order.ts";

export const titleContradictsOrder = recipeCheck({
  name: "title-contradicts-order",
  family: "record",
  severity: "error",
  title: "The title says something else than the order",
  why: "Whoever picks a recipe by its title makes what the title says.",
  source: "common practice",
  bad: example(["Magnesium sulfate 4 g in", "Magnesium sulfate 2 g in"]),
  good: example(["Magnesium sulfate 4 g in", "Magnesium sulfate 16.2 mmol (4 g) in"]),
  *find({ recipe, runs, lookup, policy }) {
    const title = recipe.facts.one("title")?.slots.text;
    if (!title || !recipe.order || isOrderedNotKnown(recipe)) return;
    const text = namesInFull(equatedUnitsSpelt(inFigures(title.text)), recipe, lookup);
    const strays = straysNamed(title.text, recipe, lookup, policy);
    const named =
      substanceContradicted(text, recipe, lookup) ??
      tailContradicted(text, recipe, lookup) ??
      saltContradicted(text, recipe, lookup);
    // The order lacks a drug that the materials hold, which is told there.
    const substance = named && strays.has(named.said) ? undefined : named;
    for (const contradicted of [
      // In a title `with` joins what the bag holds; on a label it may speak of what only stands beside it.
      substance ??
        fluidPercentContradicted(text.replace(/\bwith\b/gi, "and"), recipe, runs, lookup) ??
        fluidNameContradicted(text, recipe, lookup),
      routeContradicted(text, recipe) ??
        wayOfGivingContradicted(text, recipe) ??
        dilutionContradicted(text, recipe, lookup),
      accessContradicted(text, recipe),
      patientContradicted(text, recipe),
      batchContradicted(text, recipe),
      keepingContradicted(text, recipe),
      preservativeContradicted(text, recipe, runs, lookup),
      sourceContradicted(text, recipe, runs, lookup, true),
      dropsContradicted(text, recipe, runs),
      filterContradicted(text, recipe, lookup),
    ]) {
      const { said, ordered, whole } = contradicted ?? {};
      if (said !== undefined && ordered !== undefined) yield { at: title, written: said, ordered: [ordered], whole };
    }
    const equation = equationContradicted(text, recipe, runs, lookup);
    if (equation) yield { at: title, written: equation.said, ordered: [], given: [equation.ordered] };
    const conversions = figuresOfConversions(text);
    const inEquations = new Set([...figuresOfEquations(text), ...conversions]);
    const figures = figuresIn(text).filter((figure) => !inEquations.has(figure));
    const nominal = nominalVolumes(recipe);
    const portion = portionContradicted(text, recipe, runs, lookup, nominal);
    if (portion) yield { at: title, written: portion.said, ordered: [], given: [portion.ordered] };
    const inPortions = new Set([
      ...writtenInPortions(text, recipe, lookup),
      ...volumesOfOthers(text, substance?.said, recipe, lookup),
    ]);
    // `Levobupivacaine 0.1 % with fentanyl 2 mcg/mL` says how strong the bag is, and not from what it is made.
    const tellsDose = figures.some(({ quantity }) => isAmount(quantity));
    // `Sodium chloride 0.9 %, 500 mL` alone calls a bag by its fluid to which salt was added.
    const against = { nominal, withStocks: tellsDose, withFluids: tellsDose || text.split("%").length > 2 };
    for (const { written, known } of drugPercents(text, recipe, runs, lookup, against))
      if (!inPortions.has(written)) yield { at: title, written, ordered: [], given: known };
    for (const ratio of ratiosIn(text)) {
      const strength = inPortions.has(ratio.written)
        ? undefined
        : titleStrengthContradicted(ratio, text, recipe, runs, lookup);
      if (strength) yield { at: title, written: strength.said, ordered: [], given: [strength.ordered] };
    }
    const rate = rateContradicted(text, recipe, runs, lookup);
    if (rate && [...conversions].some(({ written }) => rate.said.startsWith(written)))
      yield { at: title, written: rate.said, ordered: [], given: [rate.ordered] };
    if (figures.length === 0) return;
    const ordered = recipe.order
      .every()
      .filter((fact) => fact.word !== "round")
      .flatMap((fact) => measuresOf(fact).filter((m) => m !== (fact.slots as { step?: unknown }).step));
    const given = runs.flatMap((run) => run.doses.flatMap((d) => d.given ?? []));
    const stated = [
      ...recipe.preparations.flatMap((p) => p.facts.every().flatMap(measuresOf)),
      // `from 40 kg with potassium`: a figure at which the order changes.
      ...recipe.order
        .every()
        .flatMap(({ when }) => [when?.bound.low?.measure ?? [], when?.bound.high?.measure ?? []].flat()),
    ];
    const weighed = new Set(
      recipe.order
        .all("weight")
        .flatMap(measuresOf)
        .map(({ start }) => start),
    );
    const targets = recipe.order.all("target").flatMap(measuresOf);
    const asStrength = writtenAsStrength(text, [...ordered, ...stated]);
    for (const figure of figures) {
      const { written, quantity } = figure;
      if (isOfStray(figure.before, strays)) continue;
      if (asStrength.has(written) || inPortions.has(written) || isTotal(figure, figures, recipe, given)) continue;
      if (targets.some((m) => m.written === written) || isHeldByProduct(figure, recipe, lookup)) continue;
      // `(10 mg/mL ampoules)` is what a product is labelled with, in words that say so.
      if (ofAnother.test(text) && productStrengths(recipe, lookup).some((each) => isSame(each, quantity))) continue;
      if (isPartOfSum(figure, figures, given)) continue;
      const times = timesSaid(figure);
      const made = recipe.order.one("makes")?.slots.count.value ?? Exact.one;
      // `3 x 500 mg` of vials for a dose of 1.5 g.
      if (times && given.some((each) => isSame(each, { ...quantity, value: quantity.value.times(times) }))) continue;
      if (times && !times.equals(made) && given.some((each) => isSame(each, quantity))) {
        yield { at: title, written: `${times.toText()} x ${written}`, ordered: [], given: [showQuantity(quantity)] };
        continue;
      }
      const part = moietyContradicted(figure, text, given, recipe, lookup);
      if (part) {
        yield { at: title, written: `${written} of ${part.form}`, ordered: [], given: [ofWhole(part, given)] };
        continue;
      }
      const contained = containedIn(figure, recipe, runs, lookup);
      // `every 36 hours` is when the next is given.
      if (/\bevery\s*$/i.test(figure.before) && /^(?:time|calendarDays)$/.test(quantity.unit.dimension.key)) continue;
      if (contained) {
        const { name, known } = contained;
        if (known.length > 0 && !known.some((each) => isNear(each, quantity)))
          yield {
            at: title,
            written: `${written} of ${name}`,
            ordered: [],
            given: known.map((q) => showQuantity(q, 4)),
          };
        continue;
      }
      const form = isForPatient(quantity) ? formForPatient(figure, recipe, lookup) : undefined;
      if (form?.fits) continue;
      if (form) {
        yield { at: title, written: `${written} of ${form.of}`, ordered: [], given: [form.known] };
        continue;
      }
      const alike = (q: Quantity) => q.unit.dimension === quantity.unit.dimension;
      // A body weight is no dose that a title in mg could contradict, nor is a dose a weight.
      const isBodyWeight = quantity.unit.spelling === "kg";
      const figured = ordered.filter((m) => weighed.has(m.start) === isBodyWeight);
      const own = [...figured.flatMap((m) => m.quantity ?? []), ...(isBodyWeight ? [] : given)].filter(alike);
      // `over 24 h` is the time of giving, however long the bag may be kept.
      const isOfGiving = own.length > 0 && quantity.unit.dimension.key === "time" && /\bover\s*$/i.test(figure.before);
      const all = [...own, ...(isOfGiving ? [] : stated.flatMap((m) => m.quantity ?? []).filter(alike))];
      const judged = matchesDose(figure, text, recipe, runs, lookup);
      if (judged?.fits || undeclaredForm(figure, text, own, recipe, lookup)) continue;
      if (judged?.form) {
        yield { at: title, written, ordered: [], form: judged.form };
        continue;
      }
      const of = judged?.counter ?? judged?.drug;
      if (judged && of !== undefined) {
        yield { at: title, written: `${written} of ${of}`, ordered: [], given: judged.known };
        continue;
      }
      if (all.some((q) => inBase(q).equals(inBase(quantity)))) continue;
      if (isForEach(quantity) && isFormSaid(figure, text, recipe, lookup)) continue;
      if (isOfIntermediate(quantity, recipe, runs) || isWholeVolume(figure, runs)) continue;
      if (own.length === 0 && judged) yield { at: title, written, ordered: [], given: judged.known };
      if (own.length === 0) {
        const volume = titleVolumeContradicted(figure, text, recipe, runs, lookup);
        if (volume !== undefined) yield { at: title, written, ordered: [], given: [volume] };
        const forPatient = doseForPatientContradicted(figure, text, recipe, runs, lookup);
        if (forPatient !== undefined && !otherDose.test(text))
          yield { at: title, written, ordered: [], given: [forPatient] };
        const strength = titleStrengthContradicted(figure, text, recipe, runs, lookup);
        if (strength) yield { at: title, written: strength.said, ordered: [], given: [strength.ordered] };
        else if (rate?.said.startsWith(written))
          yield { at: title, written: rate.said, ordered: [], given: [rate.ordered] };
        continue;
      }
      const shown = figured.filter((m) => m.quantity && alike(m.quantity));
      const sameUnit = shown.filter((m) => m.quantity!.unit.spelling === quantity.unit.spelling);
      const strange = strangeName(text, recipe, lookup);
      yield {
        at: title,
        written: strange?.written === written ? `${written} of ${strange.name}` : written,
        ordered: [...new Set((sameUnit.length > 0 ? sameUnit : shown).map((m) => m.written))],
        given: own.map((q) => showQuantity(q)),
      };
    }
  },
  say: ({ at, written, ordered, whole, given = [], form }) => {
    const said = asPrinted(at.text, written);
    return {
      text: form
        ? `The title says ${said}; the order counts it as ${form.as}, which the title does not say, and as ${form.base} it is ${form.amount}. Write "${written} as ${form.as}".`
        : `The title says ${said}; the ${whole ?? "order"} ${ordered.length > 0 ? `says ${ordered.join(" and ")}` : `comes to ${[...new Set(given)].join(" and ")}`}. Correct whichever is wrong.`,
    };
  },
});

/** `Calcium chloride 10 % 10 mL` where the gluconate is ordered: the name is told, and the volume is of that other liquid. */
function volumesOfOthers(text: string, told: string | undefined, recipe: Recipe, lookup: Lookup): string[] {
  const others = new Set(wordsOf(told ?? ""));
  // A title that does not name its drug is told as that.
  const isNameless = namesItsDrug(text, recipe, lookup) === false;
  const { drugs, fluids } = ownWords(recipe, lookup);
  return portionsIn(text)
    .filter(
      ({ words }) =>
        words.some((word) => others.has(word)) ||
        (isNameless && words.some((word) => !drugs.has(word)) && !words.some((word) => fluids.has(word))),
    )
    .map(({ volume }) => volume.written);
}
