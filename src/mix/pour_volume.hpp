// How much ready mix a job takes: from area, coats and film, with what does not reach the part.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "base/problem.hpp"

namespace huewright {

enum class PourTool { Gun, Airbrush };

/// What is assumed where nothing is said. Common practice, no source.
struct PourToolFacts {
  double film_um = 0;                              ///< wet film of one transparent coat
  double loss = 0, least_loss = 0, most_loss = 0;  ///< share of what is sprayed that does not land on the part
  double rest_ml = 0;                              ///< stays in cup, strainer and tool
};
const PourToolFacts& pourToolFacts(PourTool tool);

struct PourArea {
  std::string name;                ///< may be empty for the only one
  double m2 = 0;
};

inline constexpr std::size_t kMostPourAreas = 24;

struct PourNeed {
  std::vector<PourArea> areas;
  std::optional<double> coats{};
  PourTool tool = PourTool::Gun;
  std::optional<double> film_um{};   ///< wet, of one coat
  std::optional<double> coverage{};  ///< m² that a litre covers with one coat, before losses; instead of film_um
  std::optional<double> loss{};      ///< share, 0 … 0.95
  std::optional<double> rest_ml{};
};

struct PourNeeded {
  double m2 = 0, film_um = 0, loss = 0, rest_ml = 0;
  double on_part_ml = 0;           ///< lands on the part, all coats
  double ml = 0;                   ///< to pour
  double least_ml = 0, most_ml = 0;  ///< over the range of an assumed loss; equal to ml where the loss was told
  std::vector<double> each_ml;     ///< of `ml`, by area
};

/// ml = area · coats · film ÷ (1 − loss) + rest; 1 µm on 1 m² is 1 mL. Worked by hand.
/// Errors: BadNumber, BadChoice: no area or more than kMostPourAreas, no coats, a number out of its range (area above 0 to 1000 m²; coats above 0 to 50; film 1 … 1000 µm; coverage 1 … 1000 m²
/// a litre; loss 0 … 0.95; rest 0 … 1000 mL), or both film and coverage.
Result<PourNeeded> volumeNeeded(const PourNeed& need);

}  // namespace huewright
