import { describe, expect, it } from "vitest";
import type { Lesson, Swing } from "../contract.ts";
import type { Given, Purpose, Shown } from "../contract_given.ts";
import type { Entry } from "../outbox.ts";
import { askedFirst, ballsSay, careOf, gainSays, gainScale, numberSays, placeSays, spanSays, choices, counted, counting, doseOf, drawingUrl, howSwung, maybeJunior, overlaidGiven, plainBefore, purposeAtStart, running, runningIn } from "./given.ts";

const given = (id: string, change: Partial<Given> = {}): Given => ({
  id, pupil: "p-1", lesson: "l-1", exercise: "towel_behind_ball", at: "2026-05-04T09:00:00Z", notes: "", dose: "", cause: "weight", why: "", ended_at: "", sheet: "", ...change,
});
const lesson = (id: string): Lesson => ({
  id, pupil: "p-1", begun_at: "2026-05-04T08:00:00Z", place: "", notes: "", club: "7i", condition: "normal", surface: "fairway", ball: true, revision: 0,
});
const swing = (number: number, purpose: Purpose = "", change: Partial<Swing> = {}): Swing => ({
  id: `s-${number}`, lesson: "l-1", number, club: "7i", condition: "normal", surface: "fairway", ball: true, at: "",
  seen: [{ column: "contact", text: "fat" }], ...(purpose ? { given: "g-1", purpose } : {}), ...change,
});
const exercise = { name: "towel_behind_ball", condition: "lead_leg", ball: false, dose: { balls: 24, sets: 3, rest_s: 60, minutes: 15, days_a_week: 3 } } as Shown;
let made = 0;
const entry = (method: "PUT" | "DELETE", path: string, body?: unknown): Entry => ({ key: `k${made++}`, method, path, body, says: "" });

describe("what was given", () => {
  it("is what the book has with what waits laid over it, notes and other pupils' left out", () => {
    const kept = [given("g-1"), given("g-note", { exercise: "" })];
    const waiting = [
      entry("PUT", "/api/given/g-2", given("g-2", { at: "2026-05-05T09:00:00Z" })),
      entry("PUT", "/api/given/g-3", given("g-3", { pupil: "p-2" })),
      entry("DELETE", "/api/given/g-1"),
    ];
    expect(overlaidGiven("p-1", kept, []).map((one) => one.id)).toEqual(["g-1"]);
    expect(overlaidGiven("p-1", kept, waiting).map((one) => one.id)).toEqual(["g-2"]);
  });

  it("runs until it has ended; of two the newer", () => {
    expect(running([])).toBeNull();
    expect(running([given("g-1", { ended_at: "2026-05-04T10:00:00Z" })])).toBeNull();
    expect(running([given("g-1"), given("g-2")])?.id).toBe("g-2");
    expect(running([given("g-1"), given("g-2", { ended_at: "2026-05-06T10:00:00Z" })])?.id).toBe("g-1");
  });
});

describe("a lesson", () => {
  it("knows what was given in it or before it, not what came later", () => {
    const all = [given("g-1", { lesson: "l-1", at: "2026-05-04T09:00:00Z" }), given("g-2", { lesson: "l-2", at: "2026-05-11T09:00:00Z" })];
    const begun = (id: string, begun_at: string) => ({ ...lesson(id), begun_at });
    expect(runningIn(begun("l-0", "2026-05-01T08:00:00Z"), all)).toBeNull();
    expect(runningIn(begun("l-1", "2026-05-04T08:00:00Z"), all)?.id).toBe("g-1");
    expect(runningIn(begun("l-2", "2026-05-11T08:00:00Z"), all)?.id).toBe("g-2");
    expect(runningIn(begun("l-3", "2026-05-18T08:00:00Z"), all)?.id).toBe("g-2");
  });
});

describe("what the next swing counts as", () => {
  const nothing = { exercise: 0, after: 0 };

  it("is before, exercise or after in the lesson in which it was given", () => {
    expect(choices(given("g-1"), lesson("l-1"), { exercise: 8, after: 8 })).toEqual(["baseline", "exercise", "after", ""]);
  });

  it("is whether it held in a later lesson, unless it was not done before", () => {
    expect(choices(given("g-1"), lesson("l-2"), { exercise: 8, after: 0 })).toEqual(["retention", "transfer", "pressure", "exercise", ""]);
    expect(choices(given("g-1"), lesson("l-2"), nothing)).toEqual(["baseline", "exercise", "after", ""]);
  });

  it("begins with the exercise where balls were hit before it was given, else with those", () => {
    const first = choices(given("g-1"), lesson("l-1"), nothing);
    expect(purposeAtStart(given("g-1"), lesson("l-1"), [swing(1, "baseline"), swing(2, "baseline")], first)).toBe("exercise");
    expect(purposeAtStart(given("g-1"), lesson("l-1"), [swing(1)], first)).toBe("exercise");
    expect(purposeAtStart(given("g-1"), lesson("l-1"), [], first)).toBe("baseline");
    expect(purposeAtStart(given("g-1"), lesson("l-2"), [], first)).toBe("baseline");
  });

  it("goes on as the last ball that counted", () => {
    const first = choices(given("g-1"), lesson("l-1"), nothing);
    expect(purposeAtStart(given("g-1"), lesson("l-1"), [swing(1, "baseline"), swing(2, "exercise"), swing(3, "after"), swing(4)], first)).toBe("after");
    const later = choices(given("g-1"), lesson("l-2"), { exercise: 8, after: 8 });
    expect(purposeAtStart(given("g-1"), lesson("l-2"), [], later)).toBe("retention");
    expect(purposeAtStart(given("g-1"), lesson("l-2"), [swing(1, "retention"), swing(2, "transfer")], later)).toBe("transfer");
  });

  it("is counted for this exercise alone", () => {
    const swings = [swing(1, "baseline"), swing(2, "exercise"), swing(3, "exercise"), swing(4, "exercise", { given: "g-other" }), swing(5)];
    expect(counted(swings, "g-1")).toEqual({ baseline: 1, exercise: 2, after: 0, retention: 0, transfer: 0, pressure: 0 });
  });

  it("decides how the swing is made: the exercise's own way, all others as before it", () => {
    expect(howSwung("exercise", exercise, [], "g-1")).toEqual({ condition: "lead_leg", ball: false });
    expect(howSwung("after", exercise, [], "g-1")).toEqual({ condition: "normal", ball: true });
    const chalk = swing(1, "baseline", { condition: "step", ball: false });
    expect(howSwung("after", exercise, [chalk], "g-1")).toEqual({ condition: "step", ball: false });
    expect(howSwung("exercise", undefined, [chalk], "g-1")).toEqual({ condition: "step", ball: false });
  });
});

describe("swings before", () => {
  it("are plain ones of one club in the usual way, until something of the exercise is done", () => {
    const plain = [swing(1), swing(2), swing(3, "", { condition: "lead_leg" }), swing(4, "", { club: "pw" }), swing(5, "after", { given: "g-other" })];
    expect(plainBefore(plain, "g-1")).toBe(2);
    expect(plainBefore([...plain, swing(6, "exercise"), swing(7)], "g-1")).toBe(2);
    expect(plainBefore([...plain, swing(6, "baseline"), swing(7)], "g-1")).toBe(3);
    expect(plainBefore([], "g-1")).toBe(0);
  });

  it("lose what they counted as without a trace", () => {
    const marked = counting(swing(1), "g-1", "baseline");
    expect([marked.given, marked.purpose]).toEqual(["g-1", "baseline"]);
    expect(counting(marked, "", "")).toEqual(swing(1));
    expect("given" in counting(marked, "g-1", "")).toBe(false);
  });
});

describe("what has to be heeded", () => {
  const usual = ["Soft turf only.", "Stop on pain."];

  it("has what concerns the pupil in front, and all that goes with the exercise", () => {
    const care = careOf({ permission: "flagged", reasons: ["The wrist: ask first."], cautions: ["Soft turf only.", "Ask your doctor.", "Stop on pain."] }, usual);
    expect(care).toEqual({ concerns: ["The wrist: ask first.", "Ask your doctor."], cautions: usual, held: true });
  });

  it("is not told apart by the language in which it was given", () => {
    const care = careOf({ permission: "free", reasons: [], cautions: ["Nur weicher Rasen.", "Frag ärztlich nach."] }, usual, ["Nur weicher Rasen."]);
    expect(care).toEqual({ concerns: ["Frag ärztlich nach."], cautions: usual, held: true });
  });

  it("is there when either the server's or the exercise's are known, and says when no pupil was looked at", () => {
    expect(careOf({}, usual)).toEqual({ concerns: [], cautions: usual, held: false });
    expect(careOf({ permission: "hidden", reasons: ["No longer in the book."], cautions: usual }, [])).toEqual({ concerns: ["No longer in the book."], cautions: usual, held: true });
  });

  it("is nothing, so that nothing may be shown, where no caution is known", () => {
    expect(careOf({}, [])).toBeNull();
    expect(careOf({ permission: "free", reasons: [], cautions: [] }, [])).toBeNull();
  });
});

describe("the dose", () => {
  it("is what was given, else what the exercise says", () => {
    expect(doseOf(given("g-1"), exercise)?.balls).toBe(24);
    expect(doseOf(given("g-1", { dose: '{"balls": 12}' }), exercise)).toEqual({ ...exercise.dose, balls: 12 });
    expect(doseOf(given("g-1", { dose: "{" }), exercise)).toEqual(exercise.dose);
    expect(doseOf(given("g-1"), undefined)).toBeNull();
    expect(doseOf(given("g-1", { dose: '{"balls": 12}' }), undefined)?.balls).toBe(12);
  });

  it("is said with what has been done of it", () => {
    expect(ballsSay(3, 24, true)).toBe("balls 3 of 24");
    expect(ballsSay(3, 0, false)).toBe("swings 3");
  });
});

describe("figures in words", () => {
  const low = { unit: "cm", plus: "ahead of the ball", minus: "behind the ball" };

  it("say where a quantity lies, and how sure", () => {
    expect(placeSays(-2.14, low)).toBe("2.1 cm behind the ball");
    expect(placeSays(0.02, low)).toBe("0 cm");
    expect(placeSays(3, { unit: "°", plus: "in to out", minus: "out to in" })).toBe("3.0° in to out");
    expect(spanSays({ mean: 2, p10: -1, p90: 5 }, low)).toBe("2.0 cm ahead of the ball (80 % sure between 1.0 cm behind the ball and 5.0 cm ahead of the ball)");
  });

  it("say what is gained in the coach’s units", () => {
    expect(gainSays({ mean: 1.4, p10: -0.2, p90: 3 }, "metric")).toBe("1.4 m nearer the target, 80 % sure between 0.2 m farther and 3.0 m nearer");
    expect(gainSays({ mean: 1.4, p10: 0.2, p90: 3 }, "metric")).toBe("1.4 m nearer the target, 80 % sure between 0.2 and 3.0 m nearer");
    expect(gainSays({ mean: 0.5, p10: -0.04, p90: 1 }, "metric")).toBe("0.5 m nearer the target, 80 % sure between 0.0 and 1.0 m nearer");
    expect(gainSays({ mean: -0.9144, p10: -1.8288, p90: 0 }, "yards")).toBe("1.0 yd farther from the target, 80 % sure between 0.0 and 2.0 yd farther");
  });

  it("are on one scale with nothing among them", () => {
    const scale = gainScale([{ mean: 2, p10: 1, p90: 3 }, { mean: 0, p10: -1, p90: 1 }]);
    expect([scale(-1), scale(0), scale(3), scale(9)]).toEqual([0, 0.25, 1, 1]);
    expect(gainScale([])(0)).toBe(0);
  });

  it("are short", () => {
    expect([numberSays(12.4), numberSays(1.5), numberSays(-0.25), numberSays(0), numberSays(0.30000000000000004)]).toEqual(["12", "1.5", "−0.25", "0", "0.3"]);
  });
});

describe("the rest", () => {
  it("shows a drawing as a picture in which nothing runs", () => {
    const url = drawingUrl('<svg><path d="M 0 0"/>#</svg>');
    expect(url.startsWith("data:image/svg+xml;charset=utf-8,%3Csvg")).toBe(true);
    expect(url).not.toMatch(/[<>"#]/);
  });

  it("records what was asked about, without asking once more", () => {
    expect(askedFirst("Split hands", ["The body notes speak of the wrist. Ask first.", "Crowded: ask."])).toBe("Split hands: asked first. The body notes speak of the wrist. Crowded: ask.");
    expect(askedFirst("Split hands", ["x".repeat(2000)])).toHaveLength(900);
  });

  it("takes whoever turns 18 this year for one who may be a junior", () => {
    expect([maybeJunior(2008, 2026), maybeJunior(2007, 2026), maybeJunior(null, 2026)]).toEqual([true, false, false]);
  });
});
