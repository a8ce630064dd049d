#include "session/watched_photo.hpp"

#include "session/report_text.hpp"
#include "session/series.hpp"
#include "session/tagged.hpp"

namespace huewright {

Result<PhotoVerdict> judgeWatched(const Session& session, JudgeRequest request, const std::filesystem::path& photo, bool explain, SeriesFile* series, const std::stop_token& stop) {
  request.photo = photo;
  auto report = session.judge(request, stop);
  if (!report) return std::unexpected(report.error());
  PhotoVerdict verdict;
  verdict.beside = reportText(*report, explain);
  verdict.there = report->verdicts[report->main].band == Band::There;
  verdict.report = std::make_shared<const JudgeReport>(std::move(*report));
  if (!series) return verdict;
  verdict.keep = [series, kept = verdict.report]() -> Result<std::optional<Caution>> {
    if (std::string missing = untold(*kept); !missing.empty()) return Caution{CautionCode::NotFiled, std::move(missing)};
    return series->add(*kept, carrierOf(*kept).value_or(0));
  };
  return verdict;
}

}  // namespace huewright
