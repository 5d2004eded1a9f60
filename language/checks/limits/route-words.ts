/**
 * Names of routes that mean one route. Limits, bans and products are compared by the usual name, so that none is passed over because an
 * order says it otherwise. Short forms: common practice of charts, from memory.
 */
import { nearNames, slips } from "../../model/near.ts";
import { remembered } from "../../quantities/remembered.ts";

/** By the usual name: short forms and forms of speech, which are to be written out. */
const shortForms: Readonly<Record<string, string>> = {
  intravenous:
    "iv ivi ivpb intravenously intravenous-bolus intravenous-infusion intravenous-injection iv-bolus iv-infusion iv-injection iv-push vein",
  intramuscular: "im intramuscularly im-injection",
  subcutaneous: "subcut subcutaneously s-c",
  intradermal: "id intradermally",
  intraosseous: "io",
  intraperitoneal: "ip",
  intraarterial: "ia",
  intrathecal: "it intrathecally",
  epidural: "epi epidurally",
  intraventricular: "icv",
  oral: "po orally",
  nasogastric: "ng",
  rectal: "pr rectally",
  inhalation: "inh",
};

/** By the usual name: whole names that mean the same. */
const otherNames: Readonly<Record<string, string>> = {
  intrathecal: "spinal intraspinal subarachnoid lumbar",
  epidural: "extradural peridural caudal",
  intraventricular: "intracerebroventricular",
  intravitreal: "intravitreous",
  oral: "peroral by-mouth",
  inhalation: "inhaled",
  intravesical: "bladder-instillation",
  ophthalmic: "ocular",
  otic: "aural auricular",
  // Told as abbreviations that are read as another route.
  subcutaneous: "sc sq sub-q",
  nasal: "intranasal",
};

/** Further routes in use, so that none of them is taken for a slip of the finger. Standard terms, from memory. */
const further =
  "arteriovenous-fistula buccal cardioplegia catheter-lock conjunctival cutaneous dental dialysis ear enteral endocervical endosinusial " +
  "endotracheal endotracheopulmonary epicutaneous epilesional extraamniotic extracorporeal eye gastric gastroenteral gastrostomy gingival " +
  "haemodialysis haemofiltration hemodialysis hemofiltration implantation infiltration intestinal intraabdominal intraamniotic " +
  "intraaortic intraarticular intrabiliary intrabronchial intrabursal intracameral intracardiac intracartilaginous intracavernosal " +
  "intracavernous intracavitary intracerebral intracervical intracisternal intracorneal intracoronal intracoronary intracorporeal " +
  "intradetrusor intradiscal intraductal intraduodenal intradural intraepidermal intraepithelial intragastric intraglandular " +
  "intragluteal intrahepatic intralesional intralumbar intraluminal intralymphatic intramedullary intrameningeal intramyometrial intraocular " +
  "intraosseous intraovarian intrapericardial intrapleural intraportal intraprostatic intrapulmonary intrasinal intraspinal " +
  "intrasternal intrasynovial intratendinous intratesticular intrathoracic intratracheal intratubular intratumoral intratumour " +
  "intratympanic intraurethral intrauterine intravascular irrigation jejunal laryngeal line-lock lock nebulised nebulized ophthalmic " +
  "oromucosal oropharyngeal parenteral percutaneous periarticular peribulbar peridural perineural periodontal periosseous peritoneal " +
  "peritumoral pleural regional retrobulbar scalp subarachnoid subconjunctival subgingival sublesional sublingual submucosal " +
  "subretinal subtenon topical transdermal transmucosal transplacental transtracheal transtympanic tympanic urethral vaginal";

const written = byWord(shortForms);
const meant = new Map([...written, ...byWord(otherNames)]);

function byWord(names: Readonly<Record<string, string>>): ReadonlyMap<string, string> {
  const pairs = Object.entries(names).flatMap(([usual, words]) =>
    words.split(" ").map((word): [string, string] => [plain(word), usual]),
  );
  return new Map(pairs.filter(([word]) => word !== ""));
}

function plain(route: string): string {
  return route.toLowerCase().replaceAll("-", "");
}

/** The usual name of a route; one that is not known here stays as it is, without capitals and hyphens. */
export const routeMeant = remembered((route: string): string => meant.get(plain(route)) ?? plain(route));

const inUse = new Set([
  ...meant.keys(),
  ...[...meant.values(), ...further.split(" "), "intravenous", "bladder-irrigation"].map(plain),
]);

/** Routes in use that a name is like without being one of them: a slip of the finger or two. Names of routes are long and alike. */
export const routesAlike = remembered((route: string): readonly string[] => {
  const name = plain(route);
  return inUse.has(name) || /irrigation$|lock$/.test(name)
    ? []
    : nearNames(name, inUse).filter((near) => slips(name, near, 2) <= 2);
});

/** The usual name where this is a short form of it. */
export function routeInFull(route: string): string | undefined {
  return written.get(plain(route));
}

/** `spinal` is where `never intrathecal` speaks of, and `IV` is intravenous. */
export function isSameRoute(one: string, other: string): boolean {
  return one === other || routeMeant(one) === routeMeant(other);
}
