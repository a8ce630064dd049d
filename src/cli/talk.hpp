// What a command that runs on has to say while it runs.
#pragma once

#include <string>
#include <string_view>

#include "base/problem.hpp"
#include "cli/run.hpp"

namespace huewright {

/// Says it through the outlet; where that has no way for it, it is kept in the outcome. Both outlive this.
class Talk {
 public:
  Talk(const Outlet& outlet, Outcome& outcome) : outlet_(outlet), outcome_(outcome) {}

  void out(std::string_view text) { say(outlet_.out, outcome_.out, text); }
  /// For people alone.
  void err(std::string_view text) { say(outlet_.err, outcome_.err, text); }
  /// False once something could not be written: then there is nobody left to talk to.
  bool writes() const { return writes_; }

  /// Puts the problem and its exit into the outcome, which is given back.
  Outcome wrong(const Problem& problem);
  /// The same for what could not be written.
  Outcome unheard();

 private:
  void say(const std::function<bool(std::string_view)>& to, std::string& kept, std::string_view text);

  const Outlet& outlet_;
  Outcome& outcome_;
  bool writes_ = true;
};

}  // namespace huewright
