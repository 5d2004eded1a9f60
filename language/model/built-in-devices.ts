/** Devices that every library may use without declaring them. Graduations and pores with their sources; a library may add its own. */
import type { Chunk, ChunkReading } from "./declaration.ts";
import { type LoneDeclaration, loneDeclaration } from "./lone-declaration.ts";
import { readChunk } from "./read-chunk.ts";

/**
 * Graduations: 1 mL and 3 mL, 5 and 10 mL, 30 and 50 mL as read (teaching note on reading syringes; syringe sampling study);
 * 20 mL and 60 mL are trade practice from memory. Pore 5 micrometre for filter needles and straws: letter on filter syringes.
 * Dead space: ISO 7886-1:2018 limits as applied in a study (0.07 mL up to 2.5 mL, 0.075 mL for 5 mL, 0.1 mL for 10 mL).
 */
const text = `
device syringe-1mL {
  kind        syringe
  capacity    1 mL
  graduation  0.01 mL
  dead-space  0.07 mL  source "ISO 7886-1:2018, limit as applied in a study of dead space"
  note        "graduation: tuberculin type, teaching note on reading a syringe"
}
device syringe-3mL {
  kind        syringe
  capacity    3 mL
  graduation  0.1 mL
  note        "graduation: teaching note on reading a syringe"
}
device syringe-5mL {
  kind        syringe
  capacity    5 mL
  graduation  0.2 mL
  dead-space  0.075 mL  source "ISO 7886-1:2018, limit as applied in a study of dead space"
  note        "graduation: study of syringe sampling"
}
device syringe-10mL {
  kind        syringe
  capacity    10 mL
  graduation  0.2 mL
  dead-space  0.1 mL  source "ISO 7886-1:2018, limit as applied in a study of dead space"
  note        "graduation: study of syringe sampling"
}
device syringe-20mL {
  kind        syringe
  capacity    20 mL
  graduation  1 mL
  note        "graduation: trade practice, from memory"
}
device syringe-30mL {
  kind        syringe
  capacity    30 mL
  graduation  1 mL
  note        "graduation: study of syringe sampling"
}
device syringe-50mL {
  kind        syringe
  capacity    50 mL
  graduation  1 mL
  note        "graduation: study of syringe sampling"
}
device syringe-60mL {
  kind        syringe
  capacity    60 mL
  graduation  1 mL
  note        "graduation: trade practice, from memory"
}
device needle-18-gauge {
  kind   needle
  gauge  18
}
device needle-21-gauge {
  kind   needle
  gauge  21
}
device needle-23-gauge {
  kind   needle
  gauge  23
}
device filter-needle-5um {
  kind   filter-needle
  pore   5 micrometre
  gauge  18
}
device filter-straw-5um {
  kind  filter-straw
  pore  5 micrometre
}
device syringe-filter-0.2um {
  kind  syringe-filter
  pore  0.2 micrometre
}
device syringe-filter-1.2um {
  kind  syringe-filter
  pore  1.2 micrometre
}
device dispensing-spike {
  kind  spike
}
device vented-spike {
  kind  vented-spike
}
device closed-transfer-device {
  kind  transfer-device
}
device syringe-connector {
  kind  connector
}
device transfer-tubing {
  kind  tubing
}
device giving-set {
  kind  tubing
}
`;

/** One of them, read when it is looked into: most recipes use a few. */
class BuiltInDevice implements Chunk {
  readonly lone: LoneDeclaration;
  private read: ChunkReading | undefined;

  constructor(readonly text: string) {
    this.lone = loneDeclaration(text)!;
  }

  get reading(): ChunkReading {
    this.read ??= readChunk(this);
    return this.read;
  }
}

let devices: readonly BuiltInDevice[] | undefined;

/** The same objects at every call. */
export function builtInDevices(): readonly BuiltInDevice[] {
  devices ??= text
    .split(/(?=^device )/m)
    .filter((part) => part.trim() !== "")
    .map((part) => new BuiltInDevice(part));
  return devices;
}
