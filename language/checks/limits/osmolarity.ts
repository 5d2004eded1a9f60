/** Osmolarity of a finished container: reckoned on the bench, since hovers and sheets show it too. */
export { type Osmolarity, osmolarityOf } from "../../bench/osmolarity.ts";
