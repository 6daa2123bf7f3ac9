// What the types must allow and what they must refuse; checked by tsc, never run.
import type { Answers, DeskRequest, Entry, ErrorAnswer, EvaluateAnswer, KnownEntry } from "../../api/types/fallwright";

const book: KnownEntry = { kind: "book", format: "fallwright", version: 1, unit: "ft" };
const walked: KnownEntry = { kind: "reading", id: "K1-4", line: "D1", ch: 8, what: "laid", high: 0.004 };
const matched: KnownEntry = { kind: "setup", name: "S2", instrument: "laser", plane: { main: null, cross: "1 in 40" } };
const drain: KnownEntry = { kind: "line", name: "D1", plan: [[0, 0], [10, 0]], crossfall: ["-2.5 %", -0.025] };
const ofALaterVersion: Entry = { kind: "crane" };

// @ts-expect-error a benchmark without a level
const noLevel: KnownEntry = { kind: "benchmark", point: "BM1" };
// @ts-expect-error a word that is no sight
const noSight: KnownEntry = { kind: "reading", point: "P1", staff: 1.4, sight: "side" };
// @ts-expect-error a staff value as text
const noNumber: KnownEntry = { kind: "reading", point: "P1", staff: "1.4" };
// @ts-expect-error a kind this version does not know
const noKind: KnownEntry = { kind: "crane" };

// The kind tells which fields there are.
function figure(entry: KnownEntry): number | undefined {
  if (entry.kind === "reading") return entry.staff ?? entry.high;
  // @ts-expect-error a benchmark has no staff
  if (entry.kind === "benchmark") return entry.staff;
  return undefined;
}

const request: DeskRequest = { verb: "fall", options: { readings: [1.432, "2.118"], over: "54.88" } };
// @ts-expect-error staff needs a reading
const noReading: DeskRequest = { verb: "staff", options: {} };

// A verb fixes its answer; an answer without a level says so.
function answered<Verb extends keyof Answers>(verb: Verb, text: string): Answers[Verb] | ErrorAnswer {
  return JSON.parse(text) as Answers[Verb] | ErrorAnswer;
}
const answer = answered("evaluate", "{}");
if (!("error" in answer)) {
  const evaluated: EvaluateAnswer = answer;
  const level: number | null | undefined = evaluated.levels[0]?.level;
  // @ts-expect-error a level may be null
  const bare: number = evaluated.levels[0]!.level;
  console.assert(level === bare);
}

export { book, walked, matched, drain, ofALaterVersion, noLevel, noSight, noNumber, noKind, figure, request, noReading };
declare const console: { assert(condition: boolean): void };
