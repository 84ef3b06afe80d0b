// What is worked out about exercises: which one, whether it worked, the plan, the sheet.

#include "serve/routes.hpp"
#include "verbs/known_exercises.hpp"
#include "verbs/plan_verb.hpp"
#include "verbs/progress_verb.hpp"
#include "verbs/proof_verb.hpp"
#include "verbs/ranking_verb.hpp"
#include "verbs/sheet_verb.hpp"

namespace strikewright {
namespace {

std::string asked_for(const Asked& asked, const char* key, const char* standard = "") {
  const auto at = asked.query.find(key);
  return at == asked.query.end() ? standard : at->second;
}

Reply exercises(Means& means, const Asked& asked) {
  return reply_or_fault(exercises_document(means.book, asked_for(asked, "language", "en")));
}

Reply ranking(Means& means, const Asked& asked) {
  return reply_or_fault(ranking_document(means.book, asked.named.at("id"), asked_for(asked, "units"),
                                         asked_for(asked, "language", "en")));
}

Reply proof(Means& means, const Asked& asked) {
  return reply_or_fault(proof_document(means.book, asked.named.at("id"), asked_for(asked, "units")));
}

Reply progress(Means& means, const Asked& asked) {
  return reply_or_fault(progress_document(means.book, asked.named.at("id"), asked_for(asked, "units"),
                                          asked_for(asked, "club")));
}

Reply plan(Means& means, const Asked& asked) {
  return reply_or_fault(plan_document(means.book, asked.named.at("id"), asked_for(asked, "language")));
}

Reply calendar(Means& means, const Asked& asked) {
  Answer<std::string> text = plan_calendar(means.book, asked.named.at("id"), asked_for(asked, "language"));
  if (!text) return faulty(text.error());
  return {.type = "text/calendar; charset=utf-8",
          .body = *std::move(text),
          .headers = {{"Content-Disposition", "attachment; filename=\"practice.ics\""}}};
}

const char* type_of(SheetForm form) {
  switch (form) {
    case SheetForm::pdf:
      return "application/pdf";
    case SheetForm::html:
      return "text/html; charset=utf-8";
    case SheetForm::svg:
      return "image/svg+xml";
    case SheetForm::png:
      break;
  }
  return "image/png";
}

Reply sheet(Means& means, const Asked& asked) {
  const Result<SheetForm> form = sheet_form_named(asked_for(asked, "form", "pdf"));
  if (!form) return faulty(form.error());
  const SheetAsked what{.lesson = asked.named.at("id"),
                        .kind = asked_for(asked, "kind", "pupil"),
                        .paper = asked_for(asked, "paper", "a4"),
                        .language = asked_for(asked, "language"),
                        .units = asked_for(asked, "units"),
                        .version = means.version};
  Answer<std::string> file = sheet_file(means.book, what, *form);
  if (!file) return faulty(file.error());
  Reply out{.type = type_of(*form), .body = *std::move(file)};
  // Its style is within it; nothing in it may run or be fetched.
  if (*form == SheetForm::html || *form == SheetForm::svg)
    out.headers.emplace_back("Content-Security-Policy",
                             "sandbox; default-src 'none'; style-src 'unsafe-inline'; img-src data:; "
                             "base-uri 'none'; form-action 'none'; frame-ancestors 'none'");
  return out;
}

}  // namespace

std::vector<Route> practice_routes() {
  return {
      {.method = "GET",
       .pattern = "/api/exercises",
       .says = "every exercise that can be given, with its cautions",
       .gives = "Exercises",
       .query = {"language"},
       .handle = exercises},
      {.method = "GET",
       .pattern = "/api/lessons/{id}/exercises",
       .says = "which exercise gains this pupil most, and why",
       .gives = "Ranking",
       .query = {"units", "language"},
       .slow = true,
       .handle = ranking},
      {.method = "GET",
       .pattern = "/api/given/{id}/proof",
       .says = "whether the exercise worked",
       .gives = "Proof",
       .query = {"units"},
       .slow = true,
       .handle = proof},
      {.method = "GET",
       .pattern = "/api/given/{id}/plan",
       .says = "what to practise until the next lesson",
       .gives = "Plan",
       .query = {"language"},
       .slow = true,
       .handle = plan},
      {.method = "GET",
       .pattern = "/api/given/{id}/plan.ics",
       .says = "the same as a calendar",
       .gives = "Calendar",
       .query = {"language"},
       .slow = true,
       .handle = calendar},
      {.method = "GET",
       .pattern = "/api/lessons/{id}/sheet",
       .says = "the page for home, or the coach's summary: pdf, html, png, svg",
       .gives = "Sheet",
       .query = {"form", "kind", "paper", "language", "units"},
       .slow = true,
       .handle = sheet},
      {.method = "GET",
       .pattern = "/api/pupils/{id}/progress",
       .says = "low point and scatter over the lessons, and what was given",
       .gives = "Progress",
       .query = {"units", "club"},
       .handle = progress},
  };
}

}  // namespace strikewright
