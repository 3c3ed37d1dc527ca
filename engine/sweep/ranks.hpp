#pragma once

#include <memory>
#include <string>
#include <vector>

#include "engine/sweep/chunk_source.hpp"

namespace dullcast::sweep {

/// The processes that share a sweep: one alone, or the ranks that an MPI launcher started. MPI is used only
/// when the program was built with it and started by a launcher; all calls come from the thread that made
/// this.
class Ranks {
 public:
  /// Finds out whether a launcher started this process, and joins the others then.
  Ranks();
  ~Ranks();
  Ranks(const Ranks&) = delete;
  Ranks& operator=(const Ranks&) = delete;

  int rank() const { return rank_; }
  int count() const { return count_; }
  bool first() const { return rank_ == 0; }

  /// Rank 0's text, numbers: the same for all afterwards.
  void share(std::string& text) const;
  void share(std::vector<long>& numbers) const;
  /// Whether it holds on every rank; all must ask together.
  bool all(bool holds) const;
  /// The same, but with a sentence: the first rank's that is not empty.
  std::string first_complaint(const std::string& mine) const;
  double sum(double mine) const;

  /// A counter that all ranks draw from: one number in rank 0's memory, to which each adds by one-sided
  /// fetch-and-add (MPI 3, "Remote Memory Access"); nobody waits for rank 0 to answer. Made by all together.
  std::unique_ptr<ChunkSource> make_source() const;

  /// Ends all ranks at once, after an error that the others cannot know of.
  [[noreturn]] void abandon(int code) const;

  /// Whether the program was built with MPI.
  static bool built_with_mpi();

 private:
  int rank_ = 0, count_ = 1;
  bool joined_ = false;
};

}  // namespace dullcast::sweep
