/**
 * Rows of the published practice and notation tables that no check and no caution answers, each with the reason why a recipe
 * cannot show it. Read by the coverage page and its test, by no check. Keys are `table row`, as in the `rows` of a check.
 */

export interface AbsentRows {
  reason: string;
  rows: readonly string[];
}

const beyondUse = (...ids: string[]) => ids.map((id) => `beyond-use-dates ${id}`);
const record = (...ids: string[]) => ids.map((id) => `record-elements ${id}`);

export const absentRows: readonly AbsentRows[] = [
  {
    reason:
      "Belongs to the record of one run: who, when, which lots, what was measured and found. A recipe is written before any run and holds none of it.",
    rows: record(
      "cr-id",
      "cr-preparer",
      "cr-mfr-ref",
      "cr-datetime",
      "cr-component-trace",
      "cr-measured",
      "cr-bud",
      "cr-qc-done",
      "cr-review",
      "cr-vendor-lot-each-multi",
      "cr-verifier",
      "cr-count",
      "cr-endotoxin-sterility",
      "napra-cr-02",
      "napra-cr-04",
      "napra-cr-05",
      "napra-cr-06",
      "napra-cr-07",
      "napra-cr-08",
      "napra-cr-09",
      "napra-cr-10",
      "napra-cr-12",
      "napra-cr-13",
      "napra-cr-14",
      "pics-record-1",
      "pics-record-2",
      "pics-record-3",
      "pics-record-4",
      "pics-record-5",
      "pics-record-6",
      "label-id",
      "napra-label-07",
      "my-label-05",
      "my-label-07",
      "my-label-08",
      "my-label-09",
    ),
  },
  {
    reason:
      "The run's record copies it from the recipe; what is missing or wrong there is found in the recipe (title-missing, form-missing, concentration-differs).",
    rows: record("cr-name", "napra-cr-01"),
  },
  {
    reason:
      "Computed from the order, the stock and the steps, so that it is never typed and cannot be left out. What an author states beside it is held against it (claim-differs, concentration-differs, final-volume-differs).",
    rows: record(
      "cr-calc",
      "napra-cr-03",
      "label-actives",
      "label-total",
      "label-single-multi",
      "label-generic-ingredients",
      "napra-label-01",
      "napra-label-02",
      "napra-label-03",
      "my-label-02",
      "my-label-03",
    ),
  },
  {
    reason:
      "Follows from the drug's own facts (`hazard`, `high-alert`, `light`) wherever the drug is used; the recipe repeats none of them.",
    rows: record("label-special", "napra-label-08"),
  },
  {
    reason: "Says when a record is needed at all. Every recipe of a library is a master record.",
    rows: record("mfr-when", "cr-scope"),
  },
  {
    reason:
      "Revision and approval stand in a record beside the recipe, bound to its meaning, so that signing never changes what was signed.",
    rows: record("mfr-change-control"),
  },
  {
    reason:
      "Names a chapter of the guide, that is which documents a pharmacy keeps; it asks nothing of a single recipe.",
    rows: record("pics-4.3", "pics-4.4.1", "pics-4.4.2", "pics-4.4.3", "pics-4.5", "pics-5.4", "pics-5.8", "pics-6.5"),
  },
  {
    reason:
      "Immediate use is made outside the cabinet and without a master record. A `site` names a cabinet and a numbered category, so that a recipe cannot be of this kind.",
    rows: [
      "record-elements label-immediate",
      "technique-rules immediate-not-hazardous",
      "technique-rules immediate-time-box",
    ],
  },
  {
    reason:
      "About the print on a bought container, recalled and not read. A stock states its strength for one mL and its fill, from which both figures follow.",
    rows: ["error-prone-notation per-total-volume"],
  },
  {
    reason:
      "Places of storage are names in every line that has one, and are compared by name; no line states a temperature. Which band a name stands for, and how far it may be left, is the site's monitoring.",
    rows: beyondUse(
      "usp659-freezer",
      "usp659-refrigerator",
      "usp659-cold",
      "usp659-cool",
      "usp659-crt",
      "usp659-ccold",
      "usp659-warm",
      "usp659-heat",
      "usp659-crt-spike",
      "tx-crt",
      "nv-freezer",
    ),
  },
  {
    reason:
      "Sources differ on which end of the work the clock counts from. The site decides with `use-within-counts`; sheet and label print the event that each limit is counted from.",
    rows: beyondUse("bud-starts-at-preparation"),
  },
  {
    reason:
      "What becomes of a finished preparation that is moved from one place to another belongs to its record. Each limit of a recipe is for one place, and none is added to another.",
    rows: beyondUse("bud-not-additive"),
  },
  {
    reason: "A `site` names one edition, and a second line is told as stated twice.",
    rows: beyondUse("no-mixed-systems"),
  },
  {
    reason: "When a container was opened, and by whom, belongs to the record of the run.",
    rows: beyondUse("puncture-time-unknown"),
  },
  {
    reason:
      "A longer date than the edition's is a `deviation` with reason, role and end date; the assessment behind it is a document of the site.",
    rows: beyondUse("napra-extension"),
  },
  {
    reason: "Says of a guideline that it sets no limit for what a pharmacy makes.",
    rows: beyondUse("ema-scope", "pics-no-table"),
  },
];
