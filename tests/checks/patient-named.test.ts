/** Names, beds, numbers and dates of birth of one patient in the master text of a preparation. What belongs there: common practice. */
import { describe, expect, it } from "vitest";
import { sayingTold } from "./printed-on-samples.ts";

const isIt = (name: string) => name === "patient-named";
const told = (saying: string) => sayingTold("magnesium-4g", saying, isIt);
const title = "title: Magnesium sulfate 4 g in sodium chloride 0.9 % 100 mL";

describe("one patient", () => {
  it.each([
    ["Mrs Harrow", "Mrs Harrow"],
    ["Mr. J. Harrow, bed 4", "Mr. J. Harrow and bed 4"],
    ["For MRS HARROW", "MRS HARROW"],
    ["Patient: J. Harrow", "Patient: J. Harrow"],
    ["pt: Harrow", "pt: Harrow"],
    ["Pt name: Harrow", "Pt name: Harrow"],
    ["DOB 12/03/1961", "DOB 12/03/1961"],
    ["DOB: 1961-03-12", "DOB: 1961-03-12"],
    ["Date of birth 12 March 1961", "Date of birth 12 March 1961"],
    ["Born 12.03.1961", "Born 12.03.1961"],
    ["Ward 7, bed 12", "bed 12"],
    ["Room 14 bed B", "bed B"],
    ["MRN 4839201", "MRN 4839201"],
    ["Hospital no. 4839201", "Hospital no. 4839201"],
    ["Health number 943 476 5919", "Health number 943 476 5919"],
    [`${title} for Mrs Harrow`, "Mrs Harrow"],
    [`${title}, DOB 1961-03-12`, "DOB 1961-03-12"],
    ["note: For Mr Harrow in bed 3", "Mr Harrow and bed 3"],
  ])("%s is told", (saying, said) => {
    const [message, ...more] = told(saying);
    expect(message).toContain(` says ${said}. A recipe is printed for every patient`);
    expect(more).toEqual([]);
  });
});

describe("nobody", () => {
  it.each([
    "Kestrel Quay Infirmary pharmacy",
    "Patient: ____________",
    "Patient name:",
    "Name: ........  DOB: ........",
    "Ward: ______ Bed: ______",
    "DOB:",
    "Born at term",
    "For one patient only",
    "Patient information leaflet enclosed",
    "Patient: adult",
    "Patient: Adult of 70 kg",
    "Patient weight 70 kg",
    "PATIENT: CHECK NAME",
    "Dr. on call: ring 4411",
    "Keep at the bedside",
    "Bed rest during infusion",
    "Head of the bed 30 degrees up",
    "Ward stock",
    "For ward 7 only",
    "Case of need: call the pharmacy",
    "Hospital number of the pharmacy: 4411",
    "Flush with Hartmann's solution",
    "Ringer's lactate and Luer lock",
    "In Mg/dL: see the chart",
    "MS contin is another drug",
    "MS Clinic and MR Scan",
  ])("%s is left alone", (saying) => expect(told(saying)).toEqual([]));
});
