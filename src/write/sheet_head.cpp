// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include <fmt/format.h>

#include "write/carried.hpp"
#include "write/plain_text.hpp"
#include "write/sheet_parts.hpp"

namespace castplan::sheet {
namespace {

constexpr Font kName{20.0, true};
constexpr Font kUnder{10.5};
constexpr Font kPrivate{12.0, true};

std::string under_words(const Plan& plan) {
  std::vector<std::string> parts;
  if (plan.profile != nullptr) parts.push_back(one_line(plan.profile->title));
  if (plan.phases.size() == 1 && plan.phases.front().phase != nullptr) {
    parts.push_back(one_line(plan.phases.front().phase->title));
  }
  if (!plan.date.empty()) parts.push_back(plan.date);
  if (plan.season.water_temp) parts.push_back("water " + temperature_text(*plan.season.water_temp, plan.units));
  if (!plan.wind_text.empty()) parts.push_back("wind " + one_line(plan.wind_text));
  return joined(parts, " \xC2\xB7 ");
}

}  // namespace

double paragraph(Canvas& canvas, const std::string& text, Font font, Area area, double y, std::size_t most) {
  const Tagged tag(canvas, "P");
  for (const std::string& line : wrapped(canvas, text, font, area.width, most)) {
    y += font.size * 1.22;
    canvas.text({area.left, y}, line, font);
  }
  return y + font.size * 0.35;
}

double draw_header(Canvas& canvas, const Plan& plan, Area area, std::string_view mark_words) {
  const double mark = canvas.width_of(mark_words, kPrivate) + 3.0 * kMm;
  {
    const Tagged tag(canvas, "H1");
    const std::string name = shortened(one_line(plan.lake_name), 400);
    canvas.text({area.left, area.top + 6.0 * kMm},
                fitted(canvas, name.empty() ? "Lake without a name" : name, kName, area.width - mark - 4.0 * kMm),
                kName);
  }
  {
    const Tagged tag(canvas, "P");
    canvas.frame({area.right() - mark, area.top + 0.6 * kMm, mark, 6.4 * kMm}, {1.4});
    canvas.text({area.right() - mark + 1.5 * kMm, area.top + 5.3 * kMm}, mark_words, kPrivate);
  }
  {
    const Tagged tag(canvas, "P");
    canvas.text({area.left, area.top + 11.2 * kMm}, fitted(canvas, under_words(plan), kUnder, area.width), kUnder);
  }
  return area.top + 13.2 * kMm;
}

std::string advisory_words(const Plan& plan) {
  std::string words = joined(stop_lines(plan), " ");
  if (!words.empty() || plan.season.advisory.level == AdvisoryLevel::none) return words;
  std::vector<std::string> reasons;
  for (const std::string& reason : plan.season.advisory.reasons) reasons.push_back(sentence(reason));
  return "Caution: " + joined(reasons, " ");
}

double draw_advisory(Canvas& canvas, const Plan& plan, Area area) {
  if (plan.season.advisory.level == AdvisoryLevel::none || plan.season.no_spots) return area.top;
  const std::string words = advisory_words(plan);
  const Area inside{area.left + 2.0 * kMm, area.top, area.width - 4.0 * kMm, 0.0};
  const double end = paragraph(canvas, words, {9.5, true}, inside, area.top, 5);
  canvas.frame({area.left, area.top, area.width, end - area.top + 0.6 * kMm}, {1.2});
  return end + 1.6 * kMm;
}

double draw_no_spots(Canvas& canvas, const Plan& plan, Area area) {
  const bool stop = plan.season.no_spots || plan.season.advisory.level == AdvisoryLevel::stop;
  double y = area.top + 6.0 * kMm;
  {
    const Tagged tag(canvas, "H2");
    y += 12.0 * kMm;
    canvas.text({area.left, y}, stop ? "STOP: NO FISHING" : "NO SPOTS", {44.0, true});
  }
  y += 3.0 * kMm;
  // a reason may end with when to look again: that stands apart, and larger
  constexpr std::string_view kAgain = "Look again";
  std::vector<std::string> why;
  std::vector<std::string> again;
  for (const std::string& reason : plan.season.advisory.reasons) {
    const std::size_t at = reason.find(kAgain);
    why.push_back(sentence(reason.substr(0, at)));
    if (at != std::string::npos) again.push_back(sentence(reason.substr(at)));
  }
  if (why.empty() && !plan.phases.empty()) why.push_back(sentence(plan.phases.front().why_none));
  const Phase* phase = plan.season.phases.size() == 1 ? plan.season.phases.front() : nullptr;
  if (again.empty() && phase != nullptr && !phase->look_again.empty()) {
    again.push_back(sentence(fmt::format("{} {}", kAgain, one_line(phase->look_again))));
  }
  if (again.empty() && stop) again.push_back(fmt::format("{} when what is said above no longer holds.", kAgain));
  y = paragraph(canvas, joined(why, " "), {18.0}, area, y, 6);
  if (!again.empty()) y = paragraph(canvas, joined(again, " "), {22.0, true}, area, y + 2.0 * kMm, 5);
  return paragraph(canvas, "This sheet carries no spots. The map shows the water, launches, hazards and closures.",
                   {13.0}, area, y + 2.0 * kMm, 2);
}

}  // namespace castplan::sheet
