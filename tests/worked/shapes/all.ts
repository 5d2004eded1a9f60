/** All shapes of worked examples. */
import { counting } from "./counting.ts";
import { drawing } from "./drawing.ts";
import { electrolytes } from "./electrolytes.ts";
import { giving } from "./giving.ts";
import { mixing } from "./mixing.ts";
import { powder } from "./powder.ts";
import type { Shape } from "./shape.ts";

export const shapes: readonly Shape[] = [...drawing, ...powder, ...mixing, ...electrolytes, ...giving, ...counting];
