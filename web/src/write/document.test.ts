import { readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { describe, expect, it } from "vitest";
import type { Catalogue, Shown } from "../contract_given.ts";
import { doseSays, documentOf, figuresOf, gaps, issueOf, nameFrom } from "./document.ts";
import { agree, bounds, clearWords, draftOf, freshDraft, neutralMove, written, type Draft } from "./draft.ts";

type Document = Record<string, unknown> & { words: Record<string, Record<string, unknown>>; needs: { reach: number }; kit: { en: string; de: string }[] };

/** The document of docs/exercises.md, and how the server's list would show it. */
const page = readFileSync(fileURLToPath(new URL("../../../docs/exercises.md", import.meta.url)), "utf8");
const leaf = JSON.parse(/```json\n([\s\S]*?)```/.exec(page)![1]!) as Document;
const always = { en: ["Warm up."], de: ["Wärm dich auf."] };

function listed(language: "en" | "de", document: Document = leaf): Catalogue {
  const { words, needs, kit, ...rest } = document;
  const { dose, alt, ...texts } = words[language] as { dose: string; alt: string; cautions: string[] };
  const shown = { own: false, id: null, drawing: "", ...rest, ...texts, cautions: [...texts.cautions, ...always[language]], dose_says: dose, shows: alt, kit: kit.map((one) => one[language]), reach: needs.reach };
  return { language, always: always[language], exercises: [shown as unknown as Shown] };
}
const both = (document?: Document): { en: Catalogue; de: Catalogue } => ({ en: listed("en", document), de: listed("de", document) });
const none = { en: [], de: [] };

function full(): Draft {
  const draft = freshDraft("metric");
  Object.assign(draft.words.en, {
    title: "Brush the leaf", purpose: "The low point comes forward.", cue: "Brush it away.", steps: ["One.", "Two.", "Three.", ""], self_check: ["The leaf is gone."],
    errors: [{ wrong: "Grass behind it", help: "lean sooner." }, { wrong: "Nothing brushed", help: "stand taller." }], progression: "With a ball.", regression: "Without a club.", cautions: ["Soft turf only.", "Stop on pain."],
  });
  return draft;
}

describe("an exercise that is copied", () => {
  it.each(["metric", "yards"] as const)("becomes the same document again, in %s", (units) => {
    const draft = draftOf("coin_ahead", both(), units, true)!;
    const { words: _, ...said } = documentOf(draft);
    const { words, ...wanted } = leaf;
    // Notes have no order; the form's is its own.
    const rules = (document: Record<string, unknown>): unknown => ({ ...document, ask_first: [...(document.ask_first as string[])].sort() });
    expect(rules(said)).toEqual({ ...(rules(wanted) as object), moves: [{ ...(leaf.moves as object[])[0], home: expect.closeTo(5, 2), home_sd: expect.closeTo(5, 2) }] });
    for (const language of ["en", "de"] as const) {
      // What a drawing would show is said only where there is one.
      const { alt: _alt, ...texts } = (documentOf(draft) as Document).words[language]!;
      const { alt: _was, ...was } = words[language]!;
      expect(texts).toEqual(was);
    }
  });

  it("keeps id and name where it is changed, and gets others where one starts from it", () => {
    const mine = { ...both(), en: { ...listed("en"), exercises: [{ ...listed("en").exercises[0]!, own: true, id: "x-1" }] } };
    expect([draftOf("coin_ahead", mine, "metric", true)!].map((one) => [one.id, one.name, one.from])).toEqual([["x-1", "coin_ahead", ""]]);
    const copy = draftOf("coin_ahead", mine, "metric", false)!;
    expect([copy.name, copy.from]).toEqual(["", "coin_ahead"]);
    expect(copy.id).not.toBe("x-1");
    expect(draftOf("nobody", both(), "metric", true)).toBeNull();
  });

  it("leaves blank what was never translated, so that it follows the English", () => {
    const same = { ...leaf, kit: [{ en: "one leaf", de: "one leaf" }], words: { en: leaf.words.en!, de: leaf.words.en! } };
    const cautions = { ...both(same), de: { ...listed("de", same), always: always.en, exercises: listed("en", same).exercises } };
    const draft = draftOf("coin_ahead", cautions, "metric", true)!;
    expect([written(draft, "en"), written(draft, "de")]).toEqual([true, false]);
    draft.words.en.title = "Brush two leaves";
    expect((documentOf(draft) as Document).words.de!.title).toBe("Brush two leaves");
  });
});

describe("a document", () => {
  it("has the words of one language in both, without empty lines, and a dose in words of each", () => {
    const { words } = documentOf(full()) as Document;
    expect(words.de).toEqual({ ...words.en, dose: "20 Schwünge in 2 Sätzen, dazwischen 60 Sekunden Pause, an 3 Tagen der Woche." });
    expect(words.en!.steps).toEqual(["One.", "Two.", "Three."]);
    expect(words.en!.errors).toEqual(["Grass behind it: lean sooner.", "Nothing brushed: stand taller."]);
    expect(words.en!.dose).toBe("20 swings in 2 sets, 60 seconds of rest between, on 3 days a week.");
    expect(doseSays({ balls: "8", sets: "1", rest_s: "60", minutes: "5", days_a_week: "1" }, "en")).toBe("8 swings, on 1 day a week.");
  });

  it("has its figures in the document's units, whichever the coach types", () => {
    for (const [units, text] of [["metric", "2"], ["yards", "0.787402"]] as const) {
      const draft = freshDraft(units);
      draft.moves[0] = { ...neutralMove("weight", units), home: text.replace(".", ",") };
      const [move] = documentOf(draft).moves as { home: number; shift: number; scatter: number }[];
      expect(move).toMatchObject({ home: expect.closeTo(20, 3), shift: 0.2, scatter: 0.95 });
    }
  });

  it("has neutral figures for each cause: nothing, give or take one clear change", () => {
    for (const [cause, sd] of [["weight", "2"], ["height", "0.5"], ["release", "10"], ["face_turn", "2"], ["speed", "5"]] as const) expect(neutralMove(cause, "metric")).toMatchObject({ home: "0", home_sd: sd });
    expect(neutralMove("weight", "yards").home_sd).toBe("0.7874");
  });
});

describe("a name", () => {
  it("is made of the title's letters, and another one where it is taken", () => {
    expect(nameFrom("Brush the leaf, 2!", [])).toBe("brush_the_leaf");
    expect(nameFrom("Über die Bälle", [])).toBe("ueber_die_baelle");
    expect(nameFrom("A1", [])).toBe("own_a");
    expect(nameFrom("刀", [])).toBe("own_exercise");
    expect(nameFrom("Leaf", ["leaf", "leaf_b"])).toBe("leaf_c");
    expect(nameFrom("x".repeat(60), [])).toMatch(/^x{34}$/);
  });
});

describe("what is missing", () => {
  it("is nothing in a whole one", () => expect(gaps(full(), "en", none)).toEqual([]));

  it("is said of each field, in the order of the form", () => {
    expect(gaps(freshDraft("metric"), "de", none).map((one) => one.path)).toEqual(["title", "purpose", "cue", "steps.0", "self_check.0", "errors.0", "regression", "progression", "cautions.0"]);
  });

  it("is half a mistake, a ground, a figure out of its limits, a title that is taken", () => {
    const draft = full();
    draft.words.en.errors[1]!.help = " ";
    draft.ground = [];
    draft.dose.balls = "4.5";
    draft.moves[0]!.home = "9";
    expect(gaps(draft, "en", { en: ["Brush the leaf"], de: [] }).map((one) => one.path)).toEqual(["errors.1", "title", "ground", "dose.balls", "moves.0.home"]);
    expect(gaps(draft, "en", none).at(-1)!.says).toBe("Found “9”. Needed: a number from −8 to 8 cm.");
  });

  it("has limits as the server has them", () => {
    const far = (units: "metric" | "yards"): number => figuresOf(freshDraft(units)).find((one) => one.path === "moves.0.home")!.high;
    expect([far("metric"), far("yards")]).toEqual([8, 3.15]);
  });
});

describe("a fault of the server", () => {
  const at = (place: string, draft = full()): string => {
    const { path, language } = issueOf({ place: `document: exercise, ${place}`, found: "'left'", expected: "words that serve both hands" }, draft);
    return language ? `${path} ${language}` : path;
  };

  it("stands beside the field that it names", () => {
    expect(at("words.en.steps[2]")).toBe("steps.2 en");
    expect(at("words.en.cue")).toBe("cue en");
    expect(at("dose.minutes")).toBe("dose.minutes");
    expect(at("moves[1].home_sd")).toBe("moves.1.home_sd");
    expect(at("ask_first")).toBe("body");
    expect(at("needs.reach")).toBe("reach");
    expect(at("name")).toBe("title");
  });

  it("stands where the words were typed: past empty lines, and in the language that stands for the other", () => {
    const draft = full();
    draft.words.en.steps = ["One.", "", "Two.", "Three."];
    expect(at("words.en.steps[1]", draft)).toBe("steps.2 en");
    expect(at("words.de.cue", draft)).toBe("cue en");
    draft.kit = [{ en: "", de: "" }, { en: "a leaf", de: "" }];
    expect(at("kit[0].de", draft)).toBe("kit.1 en");
  });
});

describe("care", () => {
  it("is to ask first with every note, until the coach knows better", () => {
    expect(documentOf(freshDraft("metric"))).toMatchObject({ not_with: [], ask_first: expect.arrayContaining(["wrist", "heart", "child", "older"]) });
  });

  it("is asked for by what the exercise is, and cannot be chosen away", () => {
    const draft = freshDraft("metric");
    for (const note of Object.keys(draft.body) as (keyof Draft["body"])[]) draft.body[note] = "";
    Object.assign(draft, { ground: ["fairway"], condition: "lead_leg", load: ["knee"], crowded: true });
    agree(draft);
    expect([draft.balance, draft.body.balance, draft.body.knee, draft.body.wrist]).toEqual([true, "ask_first", "ask_first", ""]);
    draft.ground.push("mat");
    draft.jump = true;
    agree(draft);
    expect([draft.crowded, draft.body.wrist, draft.body.knee, draft.body.pregnancy, draft.body.neck]).toEqual([false, "ask_first", "not_with", "not_with", ""]);
    expect(bounds(draft).knee!.least).toBe("not_with");
  });

  it("of words: a language can be left out whole", () => {
    const draft = draftOf("coin_ahead", both(), "metric", true)!;
    clearWords(draft, "de");
    expect(written(draft, "de")).toBe(false);
    expect((documentOf(draft) as Document).kit).toEqual([{ en: "one leaf", de: "one leaf" }]);
  });
});
