/**
 * A hostile session through the protocol, against a fresh check now and then. Seeded; MISCE_LONG=1 makes it long (20,000 steps in
 * sessions of 1,000), MISCE_SEED takes another seed.
 */
import { expect, test } from "vitest";
import { seeded } from "../bench/generate.ts";
import { HostileSession } from "./hostile-session.ts";

const isLong = process.env.MISCE_LONG === "1";
const sessions = isLong ? 20 : 1;
const steps = isLong ? 1000 : 240;
const compareEvery = 20;
const firstSeed = Number(process.env.MISCE_SEED ?? 20261129);

test.each(Array.from({ length: sessions }, (_, i) => firstSeed + i))(
  `${steps} things that happen to a folder under two editors, seed %i`,
  async (seed) => {
    const session = await HostileSession.begun(seeded(seed));
    try {
      let told = 0;
      for (let i = 1; i <= steps; i++) {
        await session.step();
        if (i % compareEvery !== 0) continue;
        const { sent, asked, fresh } = await session.compare();
        const where = `seed ${seed}, step ${i}; before it: ${session.recent.join("; ")}`;
        expect(sent, `sent, ${where}`).toEqual(fresh);
        expect(asked, `asked for, ${where}`).toEqual(fresh);
        expect(session.faults, where).toEqual([]);
        told += JSON.stringify(fresh).includes("approval-") ? 1 : 0;
      }
      expect(told).toBeGreaterThan(0);
    } finally {
      await session.end();
    }
  },
  3_600_000,
);
