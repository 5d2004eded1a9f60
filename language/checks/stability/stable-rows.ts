/** Which stability rows hold for a finished container: judged on the bench, since the list of beyond-use limits needs it too. */
export {
  concentrationText,
  finished,
  isLonger,
  type Judged,
  judgeRows,
  mainFluid,
  mainFluids,
  type StableRow,
} from "../../bench/stable-rows.ts";
