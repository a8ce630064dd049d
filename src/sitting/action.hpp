// What a person can do in a sitting.
#pragma once

#include <filesystem>
#include <map>
#include <optional>
#include <string>
#include <variant>
#include <vector>

#include "session/pour.hpp"
#include "sitting/plan.hpp"

namespace huewright::act {

namespace fs = std::filesystem;

/// Opens photos. The first of them takes the role; more of them are the same again. A new first photo begins a new panel: the others are closed.
/// same_panel: what was told of its mix and coats stays. by_hand: regions of the first of them.
struct OpenPhotos { std::vector<fs::path> files; PhotoRole role = PhotoRole::First; bool same_panel = false; std::optional<Regions> by_hand{}; };
struct ClosePhoto { int id = 0; };
struct SetRole { int id = 0; PhotoRole role{}; };
struct ShowPhoto { int id = 0; };
/// Regions by hand. joins: a drag that goes on, no undo step of its own.
struct SetRegions { int id = 0; Regions regions; std::string words = "moving a region"; bool joins = false; };
/// Forgets regions by hand: the mat is looked for again.
struct FindRegions { int id = 0; };
struct SetChoices { Choices choices; bool joins = false; };
/// Stops what is being worked at.
struct Stop {};

struct LookClosely { int id = 0; };                    ///< every pixel of that photo is wanted
struct Probe { int id = 0; Point at; };
struct WantMap { bool on = true; std::optional<std::size_t> panel{}; };   ///< the ΔE map over a panel; none told: the nearest
struct WantMarks { bool on = true; };                  ///< what was left out of the regions

/// The judged panel, or its strips, become readings of the series; one is begun if none is open.
struct AddToSeries {};
struct NewSeries {};
struct OpenSeries { fs::path file; };
struct SaveSeries { fs::path file; };                  ///< empty: where it was saved last
/// The series as it was edited. joins: typing that goes on.
struct SetSeries { Series series; std::string words = "changing the series"; bool joins = false; };
struct UseTints { std::optional<fs::path> file; };
struct SetPart { std::optional<double> coats; };

struct AddChartPhotos { std::vector<fs::path> files; };
struct DropChartPhoto { std::size_t index = 0; };
struct SaveProfile { fs::path file; };                 ///< .json; with an .icc beside it
struct UseProfile { std::optional<fs::path> file; };

struct WorkOutPour { PourRequest request; };           ///< its `out` is written too

/// A camera ("0", "/dev/video1"), pictures by number ("frames/img_%03d.png") or a film. by_marks: panel and card are where the marks made by hand in the photo on show say, if its size is that of
/// the camera's pictures; else they are looked for on the mat. One camera runs at a time.
struct StartCamera { std::string source; bool by_marks = false; };
struct StopCamera {};
/// Also while it runs.
struct UseMarks { bool on = true; };
struct BeginAnew {};                                   ///< forgets the average of the frames
/// The newest frame becomes a file among the stills, and that the photo that is judged; what was told of mix and coats stays.
struct TakeStill {};
struct KeepStills { fs::path folder; };                ///< where stills go
struct ListCameras {};

/// Judges each photo that is there or comes, as `huewright watch --folder` does. One folder at a time.
struct FollowFolder { fs::path folder; };
struct UnfollowFolder {};
/// From now on photos that come go into the series by themselves where their tags tell mix, coats and carrier.
struct FileByTags { bool on = true; };

struct ListFolder { fs::path folder; };                ///< empty: where the last file was opened, else home
/// The main panel of the verdict is bare ground: the ground of the series.
struct UseAsGround {};
struct Undo {};
struct Redo {};
struct HideNotice {};
/// What the window wants to keep of itself.
struct KeepWindow { std::map<std::string, double> numbers; };
/// The demo, all of it invented: 1 a panel on the mat, 2 its series with it, 3 the camera's chart.
struct Demo { int step = 1; };

}  // namespace huewright::act

namespace huewright {

using Action = std::variant<act::OpenPhotos, act::ClosePhoto, act::SetRole, act::ShowPhoto, act::SetRegions, act::FindRegions, act::SetChoices, act::Stop, act::LookClosely, act::Probe, act::WantMap,
                            act::WantMarks, act::AddToSeries, act::NewSeries, act::OpenSeries, act::SaveSeries, act::SetSeries, act::UseTints, act::SetPart, act::AddChartPhotos, act::DropChartPhoto,
                            act::SaveProfile, act::UseProfile, act::WorkOutPour, act::ListFolder, act::Undo, act::Redo, act::UseAsGround, act::KeepWindow, act::HideNotice, act::Demo,
                            act::StartCamera, act::StopCamera, act::UseMarks, act::BeginAnew, act::TakeStill, act::KeepStills, act::ListCameras, act::FollowFolder, act::UnfollowFolder, act::FileByTags>;

}  // namespace huewright
