// From parts to a cup that is poured: how much, in which order, how exactly, and a sheet to print. Free of any command line or window.
#pragma once

#include <filesystem>
#include <optional>
#include <string>
#include <vector>

#include "base/caution.hpp"
#include "mix/cup.hpp"
#include "mix/pour.hpp"
#include "mix/pour_error.hpp"
#include "mix/pour_volume.hpp"

namespace huewright {

/// Finest mesh that a transparent coat is strained through, µm: common practice, no source.
inline constexpr int kStrainerUm = 125;

/// What is in the cup already.
struct PourHeld {
  double amount = 0;
  bool grams = false;                       ///< else millilitres
  std::vector<double> parts;                ///< of each tint of the recipe, in its order
  double carrier = 0;
};

struct PourRequest {
  PourRecipe recipe;
  PourNeed need;                            ///< not looked at with volume_ml
  std::optional<double> volume_ml{};        ///< the finished mix, instead of working it out from area and coats
  std::optional<PourGauge> gauge{};         ///< absent: a scale with steps of 0.1 g if all densities are known, else cup lines read to 1 mL
  std::optional<double> cup_ml{};           ///< what one cup takes
  std::optional<PourHeld> held{};
  std::string title;                        ///< of the sheet; may be empty
  std::string paper = "a4";                 ///< of the sheet: "a4" or "letter"
  std::vector<std::filesystem::path> out;   ///< .pdf, .html: each is written; what is there is replaced
};

struct PourReport {
  std::optional<PourNeeded> needed{};       ///< by area; absent when the volume was told
  PourGauge gauge;
  double wanted_ml = 0;                     ///< what the job takes
  double total_ml = 0;                      ///< finished mix, all fills together
  std::optional<double> total_g{};
  int fills = 1;                            ///< equal ones, when a cup takes less
  std::vector<double> in_cup_ml, add_ml;    ///< of each ingredient, of one fill
  std::vector<Pouring> order;               ///< of one fill
  PourErrors errors;                        ///< of one fill
  double smallest_ml = 0;                   ///< with a ratio error of kWorstRatioError, afresh
  std::optional<CupTopUp> top_up{};
  std::optional<CupParts> lines{};          ///< of each pouring in order, into an empty cup
  std::vector<std::string> sentences;
  std::vector<Caution> cautions;
};

/// Works out the pour and writes the sheets, each whole or not at all. Checks everything before a file is written.
/// Errors: BadMix, BadNumber, BadChoice; CupUnusable; WriteFailed, OutOfMemory, Internal.
Result<PourReport> pour(const PourRequest& request);

}  // namespace huewright
