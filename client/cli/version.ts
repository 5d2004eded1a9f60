/** The one place where the program's own version is read; the bundle carries it. */
export { version } from "../../package.json";
