/**
 * The parts of FHIR R4 (4.0.1) that an export uses, as types; element names and cardinalities from HL7's pages of Medication,
 * Substance, MedicationRequest, Dosage and Bundle of that release. No extension and no code of a terminology is among them.
 */

export interface Quantity {
  value: number;
  unit: string;
  system?: "http://unitsofmeasure.org";
  code?: string;
}

export interface Ratio {
  numerator: Quantity;
  denominator: Quantity;
}

/** Text only: a recipe library states no codes, and none is made up. */
export interface Concept {
  text: string;
}

export interface Identifier {
  type?: Concept;
  value: string;
  assigner?: { display: string };
}

export interface Reference {
  reference?: string;
  display: string;
}

export interface Narrative {
  status: "generated";
  /** XHTML. */
  div: string;
}

export interface Substance {
  resourceType: "Substance";
  text: Narrative;
  identifier: Identifier[];
  code: Concept;
  description?: string;
}

export interface Ingredient {
  itemReference: Reference;
  isActive?: boolean;
  strength?: Ratio;
}

/** Without a `status`: nothing that leaves here is said to be in active use. */
export interface Medication {
  resourceType: "Medication";
  text: Narrative;
  identifier: Identifier[];
  code: Concept;
  form?: Concept;
  amount?: Ratio;
  ingredient?: Ingredient[];
  batch?: { lotNumber: string; expirationDate: string };
}

export interface Dosage {
  text: string;
  timing?: { repeat: { duration: number; durationUnit: string } };
  site?: Concept;
  route?: Concept;
  doseAndRate?: { doseQuantity?: Quantity; rateRatio?: Ratio; rateQuantity?: Quantity }[];
  maxDosePerAdministration?: Quantity;
}

export interface MedicationRequest {
  resourceType: "MedicationRequest";
  text: Narrative;
  identifier: Identifier[];
  /** Never anything else: what leaves here is the shape of an order, not an order. */
  status: "draft";
  intent: "proposal";
  medicationReference: Reference;
  subject: { display: string };
  note: { text: string }[];
  dosageInstruction: Dosage[];
}

export type Resource = MedicationRequest | Medication | Substance;

export interface Bundle {
  resourceType: "Bundle";
  identifier: Identifier;
  type: "collection";
  entry: { fullUrl: string; resource: Resource }[];
}
