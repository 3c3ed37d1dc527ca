#pragma once

namespace dullcast::sweep {

/// What has been done so far, over all who work.
struct Tally {
  long cases = 0, failures = 0;
  double hottest = 0.0;  // K, hottest flat of any case

  void add(const Tally& other) {
    cases += other.cases;
    failures += other.failures;
    if (other.hottest > hottest) hottest = other.hottest;
  }
};

/// Where those who share a sweep's work take their places in its list of chunks. Every call is made by one
/// thread of a process.
class ChunkSource {
 public:
  virtual ~ChunkSource() = default;
  /// The next place, counted from 0; each is given once, to one of those who ask. Never ends: places past the
  /// list mean that all is taken.
  virtual long take() = 0;
  /// Adds what this process has done.
  virtual void report(const Tally& gained) = 0;
  /// What all have done and reported.
  virtual Tally total() = 0;
  /// Lets what others ask of this process through; called many times a second.
  virtual void attend() {}
  /// Asks everybody to stop, in the middle of a run at that.
  virtual void stop() = 0;
  virtual bool stopped() = 0;
};

/// One process alone.
class OwnSource : public ChunkSource {
 public:
  long take() override { return next_++; }
  void report(const Tally& gained) override { total_.add(gained); }
  Tally total() override { return total_; }
  void stop() override { stopped_ = true; }
  bool stopped() override { return stopped_; }

 private:
  long next_ = 0;
  Tally total_;
  bool stopped_ = false;
};

}  // namespace dullcast::sweep
